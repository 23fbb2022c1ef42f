"""Light on paper: exposures, fall-off, strips, lamps, and how sure each number is.

Nothing here imports the rest of the tool but `footlight.errors` and `footlight.quantities`, and only
`contours` imports a heavy package (matplotlib, when a picture is drawn).

Symbols: d height, lens pupil to sheet [mm]; f focal length [mm]; N f-number; t time [s]; E illuminance
[lx]; H dose [lx s]; p departure exponent of long exposures; δ dead time [ms]. A difference in stops is
positive for more time.
"""
