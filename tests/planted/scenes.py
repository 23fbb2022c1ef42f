"""Short scenes on the bench, each run with the referee: what a planted bug must not survive.

A scene takes a folder for the flash and the options of the bench; it raises when something is wrong.
Those that catch most come first.
"""

from collections.abc import Callable
from pathlib import Path

from tests.planted import scenes_of_counts as counts
from tests.planted import scenes_of_feet as feet
from tests.planted import scenes_of_lights as lights
from tests.planted import scenes_of_words as words
from tests.planted.setting import Options

SCENES: tuple[Callable[[Path, Options], None], ...] = (
    feet.a_whole_print,
    feet.a_frightened_foot,
    feet.an_old_release,
    lights.power_goes,
    lights.an_exception,
    feet.a_double_tap,
    feet.bouncing,
    lights.hanging,
    words.a_repeated_request,
    words.noise_at_rest,
    words.a_babbling_computer,
    words.what_is_shown,
    words.the_journal,
    feet.bad_pedals,
    lights.left_for_the_prompt,
    lights.bad_lamps,
    lights.too_much_light,
    lights.a_hot_lamp_and_no_power,
    counts.a_low_mains,
    counts.a_sensor_that_is_lost,
)
