"""What stands in the trays: the notebook's baths joined with the chemistry's capacities.

Nothing here is stored: use, age, limits and warnings are worked out anew from what was mixed, what the
controllers recorded and what the printer wrote.
"""
