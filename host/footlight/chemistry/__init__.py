"""What baths are mixed from: dilutions, peroxide, citric acid, whole formulas, capacity, and their hazards.

    >>> from footlight.chemistry import peroxide
    >>> mix = peroxide.for_volume(stock_ww=30, wanted_ww=10, volume_ml=1000)
    >>> round(mix.stock_ml, 1), round(mix.water_ml)
    (310.2, 691)

Volumes are in mL, masses in g, strengths in % w/w unless a name says otherwise. Hazards come with every
mix: `footlight.chemistry.hazards.hazards_for`.
"""
