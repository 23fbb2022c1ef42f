"""Every key of a light-setups file."""

from footlight.sequence import readers as read
from footlight.sequence.keys import Key
from footlight.sequence.reference import meter, reference
from footlight_core.program import LIGHT_CAP_MS

WINDOW_MS = 600_000

FILE = (
    Key("lamp", read.table("[lamp.enlarger]"), "a table for each lamp", {}, "none"),
    Key("setup", read.table("[setup.second]"), "a table for each light setup", {}, "none"),
    Key("about", read.free_text('"for the small enlarger"'), "for people", "", "nothing"),
)

LAMP = (
    Key(
        "cap",
        read.duration(1, LIGHT_CAP_MS, "60 s"),
        "the longest that it may burn in one go; the set-up light has its own",
    ),
    Key(
        "ten_minute_limit",
        read.duration(1, WINDOW_MS, "3:00"),
        "the most that it may burn in any ten minutes, all its lights together",
    ),
    Key("show", read.shown(6, '"LAMP"'), "its name on the display", "", "its name, if that fits"),
    Key(
        "least",
        read.duration(1, 5000, "20 ms"),
        "the shortest light that its relay can do; a smaller rest is said and not given",
        20,
        '"20 ms"',
    ),
    Key(
        "relay",
        read.choice(("contacts", "zero-crossing", "random-on")),
        "how it is switched, for the warning about short times",
        "contacts",
        '"contacts"',
    ),
    Key("mains", read.choice(("50 Hz", "60 Hz")), "mains frequency, for the same", "50 Hz", '"50 Hz"'),
    Key(
        "head",
        read.choice(("condenser", "diffuser")),
        "how the lamp house spreads the light, for the warning about wide stops",
        None,
        "not known",
    ),
    Key(
        "source",
        read.length("60 mm"),
        "diameter of a bare lamp's bright opening; without it, a point",
        0.0,
        "a point",
    ),
    Key("note", read.free_text('"warm it up for a minute"'), "for people", "", "nothing"),
)

SETUP = (
    Key("lamp", read.name(example='"enlarger"'), "which lamp of this file"),
    Key("height", read.height(), "lens pupil (bare lamp: its opening) to the sheet in its tray"),
    Key(
        "highest",
        read.height(),
        "how high the column lets it stand, measured as height is; a repeat on a larger sheet keeps below it",
        None,
        "not known",
    ),
    Key("lens", read.name(example='"80 mm"'), "the lens; leave it out for a bare lamp", None, "bare lamp"),
    Key(
        "focal_length",
        read.length("80 mm"),
        "of the lens; shown where the lens's name does not fit",
        None,
        "not known",
    ),
    Key("stop", read.stop(), "the stop; needed with a lens, not allowed without one", None, "bare lamp"),
    Key(
        "dead_time",
        read.duration(0, 2000, "60 ms"),
        "the part of each lamp-on time that gives no light (relay, filament)",
        0,
        '"0 s"',
    ),
    Key(
        "reference",
        reference(),
        "the exposure found good with this lamp, lens and filter, and where it was made",
        None,
        "none: only time can be written",
    ),
    Key("meter", meter(), "a light meter's reading, for doses in lux-seconds", None, "none"),
    Key("filter", read.label('"yellow, in the drawer"'), "filter under the lamp", None, "none"),
    Key("neutral_density", read.density(), "neutral density in the beam", 0.0, "none"),
    Key(
        "departure",
        read.number(0.5, 1.2, "0.9"),
        "measured exponent p of this paper's long exposures (effect = light x time^p)",
        None,
        "not measured",
    ),
    Key(
        "departure_uncertainty",
        read.number(0.001, 0.5, "0.02"),
        "how sure that exponent is (one standard uncertainty)",
        0.02,
        "0.02",
    ),
    Key("note", read.free_text('"the column is marked at 62"'), "for people", "", "nothing"),
)
