"""Writes docs/reference-files.md from the readers of the files: `python docs/make_files.py`.

The keys of sequences, light setups and settings are declared where they are read. Formula and camera files
have readers without a table: what their keys mean is said here, and a key that is missing here is an error.
"""

import runpy
from collections.abc import Collection, Iterable
from pathlib import Path

from footlight.camera import settings as camera
from footlight.chemistry import formula
from footlight.settings import SETTINGS

PAGE = Path(__file__).with_name("reference-files.md")
SEQUENCES = runpy.run_path(str(Path(__file__).with_name("make_sequences.py")))

HEAD = """# Files

Made by `docs/make_files.py` from the readers of the files; a test holds this page to them. How a sequence is
written, and why, is in [sequences](sequences.md); what commands do, in [their page](reference-commands.md).

All of them are TOML in UTF-8. Quantities carry their unit, in quotes: `"1:30"`, `"620 mm"`, `"f/11"`. A key
that is not in these tables is an error, and the nearest one is named.
"""

# Heading -> (what the file is, [(heading of a table, its name in make_sequences)]).
OURS = {
    "Sequence file": (
        "Steps for the controller. `footlight new` writes one to start from, `footlight plan` checks it.",
        [
            ("The head", "head"),
            ("`[trays.NAME]`", "tray"),
            ("`[[step]]`: keys of all steps, and all that a pause has", "all steps"),
            ('`kind = "bath"`', "bath"),
            ("`agitation` of a bath", "agitation"),
            ('`kind = "by hand"`', "by hand"),
            ("each of its `cues`", "cue"),
            ('`kind = "until pressed"`', "until pressed"),
            ('`kind = "light"`', "light"),
            ("Limits of the controller", "limits"),
        ],
    ),
    "Light-setups file": (
        "Lamps, and where they stood when an exposure was found good: `light-setups.toml` beside a sequence.",
        [("The file", "setups file"), ("`[lamp.NAME]`", "lamp"), ("`[setup.NAME]`", "setup")],
    ),
}

# key -> (means, allowed, if not written, example)
Rows = dict[str, tuple[str, str, str, str]]
MUST = "**must be written**"
FORMULA: Rows = {
    "name": ("what the bath is called", "any text", MUST, '"my bleach"'),
    "kind": ("what it does", '"developer", "bleach", "clearing", "fixer"', MUST, '"bleach"'),
    "makes": ("what the masses and volumes are for", "above 0 mL", MUST, '"1 L"'),
    "ingredient": (
        "a table for each, in the order of mixing; 1 to 20 of them",
        "see below",
        MUST,
        "[[ingredient]]",
    ),
    "about": ("for people", "any text", "nothing", '"a start"'),
    "also": ("other names that a sequence may call it by", "a list of texts", "none", '["the usual bleach"]'),
}
INGREDIENT: Rows = {
    "what": ("what it is", "any text", MUST, '"citric acid"'),
    "mass": ("weighed", "above 0 g", "one of the four", '"20 g"'),
    "volume": (
        "poured; all volumes together at most what it makes",
        "above 0 mL",
        "one of the four",
        '"100 mL"',
    ),
    "dilution": ("a concentrate", "1 + 9, 1 in 10", "one of the four", '"1 + 9"'),
    "strength": (
        "of hydrogen peroxide in the finished bath, from whatever stock",
        "% w/w, % w/v, vol; at most 50 % w/w",
        "one of the four",
        '"6 % w/w"',
    ),
    "form": ("of citric acid, which must have it", '"monohydrate", "anhydrous"', "–", '"anhydrous"'),
    "note": ("for people", "any text", "nothing", '"dissolved first"'),
}
CAMERA: Rows = {
    "lens": ("a table for each lens; up to 100", "see below", "none", '[lens."old portrait lens"]'),
    "light": ("a table for each subject light; up to 100", "see below", "none", '[light."open shade"]'),
    "filter": ("a table for each filter on the camera; up to 100", "see below", "none", '[filter."yellow"]'),
}
LENS: Rows = {
    "focal": ("focal length", "above 0 mm", MUST, '"210 mm"'),
    "stops": ("the marks that it has", "a list of f/0.5 to f/1024", "the usual marks", '["f/8", "f/11"]'),
    "draws": ("lens board to film, for its card", "a list of lengths", "usual ones", '["210 mm", "420 mm"]'),
    "pupil_ratio": ("opening seen from behind over that seen from the front", "0.2 to 5", "1", "1.0"),
    "openings": (
        "diameters measured through the front, by mark",
        "above 0 mm",
        "none",
        '{ "f/8" = "25.9 mm" }',
    ),
}
CONDITION: Rows = {
    "more": ("exposure, against the light of your index", "stops", MUST, '"1 1/3 stop"'),
    "contrast": ("change of the paper's ISO range R; minus is harder", "-220 to 220", "0", "-10"),
    "known": ("how it was found; stated doubles the doubt", '"stated", "measured"', '"stated"', '"measured"'),
    "off": ("how well it is known", "0 to 3 stops", "by `known`", '"1/6 stop"'),
}
# (heading, rows, the keys that its reader knows)
Theirs = tuple[str, Rows, Collection[str]]
THEIRS: dict[str, tuple[str, list[Theirs]]] = {
    "Formula file": (
        "What a bath is mixed from. `footlight mix formulas NAME` prints a shipped one, to be changed.",
        [
            ("The head", FORMULA, formula._KEYS),
            (
                "`[[ingredient]]`: just one of the four ways to say how much",
                INGREDIENT,
                formula._INGREDIENT_KEYS,
            ),
        ],
    ),
    "Camera file": (
        "Lenses, subject lights and filters, for `footlight camera` with `--file`.",
        [
            ("The file", CAMERA, camera._KEYS),
            ("`[lens.NAME]`", LENS, camera._LENS_KEYS),
            ("`[light.NAME]` and `[filter.NAME]`", CONDITION, camera._CONDITION_KEYS),
        ],
    ),
}


def page() -> str:
    """The whole page."""
    parts = [HEAD]
    for heading, (about, tables) in OURS.items():
        parts += [f"## {heading}\n", f"{about}\n"]
        parts += [f"### {title}\n\n{SEQUENCES['table'](name)}\n" for title, name in tables]
    for heading, (about, tables) in THEIRS.items():
        parts += [f"## {heading}\n", f"{about}\n"]
        parts += [f"### {title}\n\n{_checked(title, rows, keys)}\n" for title, rows, keys in tables]
    parts += [
        "## Settings file\n",
        "`settings.toml`; `footlight settings` says where it lies.\n",
        _settings(),
    ]
    return "\n".join(parts) + "\n"


def _checked(title: str, rows: Rows, keys: Collection[str]) -> str:
    if set(rows) != set(keys):
        raise ValueError(f"{title}: the reader knows {sorted(keys)}, this page {sorted(rows)}")
    return _table((key, *cells[:3], _written(key, cells[3])) for key, cells in rows.items())


def _settings() -> str:
    return _table(
        (
            one.name,
            f"{one.meaning}; `{one.option}` and `{one.env}` win over it",
            one.allowed,
            one.unless,
            written,
        )
        for one in SETTINGS.values()
        for written in [_written(one.name, one.example)]
    )


def _written(key: str, example: str) -> str:
    return example if example.startswith("[") and not example.startswith('["') else f"{key} = {example}"


def _table(rows: Iterable[tuple[str, str, str, str, str]]) -> str:
    head = "| key | means | allowed | if not written | example |\n|---|---|---|---|---|\n"
    lines = (
        (f"`{key}`", means, allowed, unless, f"`{example}`") for key, means, allowed, unless, example in rows
    )
    return head + "\n".join(
        "| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines
    )


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
