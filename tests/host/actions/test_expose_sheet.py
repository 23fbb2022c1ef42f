"""A camera exposure as a script writes it down: what is said goes over what is known, and is reckoned."""

from pathlib import Path
from typing import Any

import pytest

from footlight.actions.expose_sheet import Exposed, InCamera, expose_sheet
from footlight.actions.list_lenses import lens_cards
from footlight.actions.note_paper import note_paper
from footlight.actions.show_sheet import show_sheet
from footlight.camera.settings import Settings, settings_of
from footlight.errors import InputError
from footlight.notebook.errors import NotebookError
from footlight.notebook.stock.papers import Finding
from footlight.quantities import parse_stop
from footlight.written.camera import reading

NOW_S = 1_772_388_000
EV_12 = reading("EV 12", "reading")
F_22 = parse_stop("f/22", "stop")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return tmp_path / "notebook.sqlite"


def expose(book: Path, number: int = 41, **said: Any) -> Exposed:
    return expose_sheet(book, number, InCamera(**said), NOW_S)


def planned_s(book: Path, **said: Any) -> float:
    """At EV 12, f/22 and index 100: 22.627² / 2^12 s, an eighth, too short to depart from reciprocity."""
    given: dict[str, Any] = {"reading": EV_12, "stop": F_22, "index": 100.0} | said
    exposure = expose(book, **given).exposure
    assert exposure.planned_s is not None
    return exposure.planned_s


def camera_file(table: dict[str, Any]) -> Settings:
    return settings_of(table, lambda *keys: ".".join(map(str, keys)))


def test_the_law_of_the_meter(book: Path):
    # ISO 2720: t = N² / 2^EV at index 100.
    assert planned_s(book) == pytest.approx(0.125, abs=1e-4)


def test_a_measured_exponent_of_long_exposures(book: Path):
    # Index 4: 3.125 s by the meter; from 1 s on t^(1/p), Schwarzschild's law.
    assert planned_s(book, index=4.0, p=0.8) == pytest.approx(3.125 ** (1 / 0.8), rel=1e-3)


def test_bellows_from_sizes_and_from_draw(book: Path):
    # Life size costs two stops: (1 + m)² with m = 1, optics texts.
    assert planned_s(book, image_mm=80.0, object_mm=80.0) == pytest.approx(0.5, rel=1e-3)
    assert planned_s(book, lens="150 mm", draw_mm=300.0, correct=True) == pytest.approx(0.5, rel=1e-3)
    with pytest.raises(InputError, match="not both"):
        planned_s(book, lens="150 mm", draw_mm=300.0, image_mm=80.0, correct=True)


def test_lens_light_and_filter_of_the_camera_file(book: Path):
    settings = camera_file(
        {
            "lens": {"wide": {"focal": "150 mm", "pupil_ratio": 2}},
            "light": {"open shade": {"more": "1 stop"}},
            "filter": {"yellow": {"more": "2 stops"}},
        }
    )
    # Pupil ratio 2: (1 + 1/2)², optics texts.
    assert planned_s(book, lens="wide", draw_mm=300.0, settings=settings) == pytest.approx(
        0.125 * 2.25, rel=1e-3
    )
    assert planned_s(book, number=42, light="open shade", filter="yellow", settings=settings) == (
        pytest.approx(0.125 * 8, rel=1e-3)
    )
    assert planned_s(book, number=43, light="open shade", filter="yellow") == pytest.approx(0.125, rel=1e-3)


def test_what_is_said_goes_over_what_is_known(book: Path):
    expose(book, reading=EV_12, stop=F_22, index=4.0, holder="3a", lens="150 mm", subject="chairs")
    exposure = expose(book, index=100.0, given_s=2.0).exposure
    assert (exposure.exposure_index, exposure.holder, exposure.subject) == (100.0, "3a", "chairs")
    # The stop that was said before is the stop of a new reading, and the index said last its index.
    corrected = expose(book, reading=EV_12, correct=True).exposure
    assert corrected.planned_s == pytest.approx(0.125, abs=1e-4)
    typed = expose(book, planned_s=4.0, correct=True).exposure
    assert (typed.planned_s, typed.arithmetic, typed.given_s) == (4.0, "", 2.0)
    assert show_sheet(book, 41).life.camera == typed


def test_again_and_as_another(book: Path):
    expose(book, 41, planned_s=4.0, given_s=4.5, holder="3a", light="north window", at_unix_s=NOW_S)
    again = expose(book, 42, again=True).exposure
    assert (again.planned_s, again.given_s, again.holder, again.light) == (4.0, None, "", "north window")
    expose(book, 43, planned_s=9.0)
    assert expose(book, 44, as_sheet=41).exposure.planned_s == 4.0
    with pytest.raises(InputError, match="one sheet to copy from, not two"):
        expose(book, 45, again=True, as_sheet=41)


@pytest.mark.parametrize(
    ("said", "error", "match"),
    [
        ({}, InputError, "nothing to write"),
        ({"planned_s": 4.0, "reading": EV_12}, InputError, "meter, planned: give a reading"),
        ({"planned_s": 0.0}, InputError, "planned: 0 s must be more than zero"),
        ({"given_s": -1.0}, InputError, "given: -1 s must be more than zero"),
        ({"reading": EV_12, "index": 4.0}, InputError, "stop is missing"),
        ({"reading": EV_12, "stop": F_22}, InputError, "ei is missing"),
        ({"again": True}, NotebookError, "no camera exposure was written down yet"),
        ({"planned_s": 4.0, "paper": "A"}, NotebookError, "no such batch"),
    ],
)
def test_what_cannot_be(book: Path, said: dict[str, Any], error: type[Exception], match: str):
    with pytest.raises(error, match=match):
        expose(book, **said)


def test_nothing_found_is_no_finding_and_no_lens_no_card(book: Path):
    expose(book, planned_s=4.0)
    with pytest.raises(InputError, match="nothing to write"):
        note_paper(book, "A", [], NOW_S)
    with pytest.raises(NotebookError, match="no such batch"):
        note_paper(book, "A", [Finding("speed", 4.0)], NOW_S)
    with pytest.raises(InputError, match="no lens is in the notebook"):
        lens_cards(book, [])
