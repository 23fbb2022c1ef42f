"""A stop is never ignored, also a moment after the start: on the core alone, where no hardware helps."""

# pyright: reportMissingImports=false

from checking import Stage, check, finish, head, light

from footlight_core import states as st

stage = Stage(head(light(10_000, dead_ms=50)))
stage.states((st.LONG, 2000), (st.LONG, 4000), (st.SHORT, 6000))
check("a press 150 ms after the start stops", stage.states((st.PRESS, 6150)), ["held"])
finish()
