"""Pages, drawings and lists are what the code makes; what the text says of a hole is true of it."""

import re
from pathlib import Path

import pytest
from hardware import budget, pages
from hardware.board import all_holes
from hardware.circuit import build
from hardware.generate import PAGES, WITH_PNG, made_parts, out_of_date, read_checks
from hardware.pins import read_pins
from hardware.routing import route

FOLDER = Path("hardware")
SAFETY = Path("docs/safety.md")
CIRCUIT = build()


def test_everything_that_is_made_is_up_to_date() -> None:
    assert out_of_date() == [], "run: python -m hardware.generate"


def test_pictures_are_there() -> None:
    for name in WITH_PNG:
        assert (FOLDER / "made" / f"{name}.png").read_bytes().startswith(b"\x89PNG")


# What each hole is that the assembly and bring-up texts send the maker to, typed here from the schematic.
HOLES = {
    (39, 2): "+5V", (45, 25): "GND", (32, 5): "VSYS", (28, 5): "VSYS", (28, 8): "3V3",
    (21, 6): "GND", (21, 11): "GND", (21, 16): "GND", (21, 21): "GND",
    (28, 6): "GND", (28, 11): "GND", (28, 16): "GND", (28, 21): "GND",
    (15, 7): "BASE_Q1", (8, 16): "BASE_Q5", (13, 12): "HOLD", (19, 9): "LAMP_PUMP", (19, 7): "LAMP_GATE",
    (21, 14): "WHITE_READ", (28, 12): "COIL_HIGH", (28, 10): "COIL_LOW",
    (15, 9): "PUMP_IN", (19, 20): "WHITE", (11, 20): "BASE_Q3", (9, 33): "REST_LINE", (7, 33): "MAKE_LINE",
    (27, 26): "BUZZER", (34, 28): "BASE", (28, 30): "+5V", (38, 17): "+5V", (38, 18): "+5V",
    (35, 17): "GND", (35, 20): "GND", (35, 23): "GND", (38, 21): "GND", (38, 19): "GND",
    (35, 22): "DIN_5V", (38, 23): "CS_5V", (35, 19): "CLK_5V", (28, 13): "SENSE",
    (46, 31): "SENSE_LINE", (46, 29): "SENSE_FEED", (38, 31): "SENSE_LINE",
    (16, 30): "3V3", (12, 30): "REST_LINE", (13, 28): "MAKE_LINE", (42, 10): "+5V", (7, 4): "LED_A",
}  # fmt: skip
SCREW_HOLES = {(2, 2), (47, 2), (2, 34), (47, 34)}


def nets_by_hole() -> dict[tuple[int, int], str]:
    found = {hole: wire.net for wire in route(CIRCUIT) for hole in wire.holes}
    found |= {hole: net for hole, end in all_holes(CIRCUIT).items() if (net := CIRCUIT.net_of(*end))}
    return found


def test_each_hole_is_on_the_net_that_the_text_means() -> None:
    nets = nets_by_hole()
    assert {hole: nets.get(hole) for hole in HOLES} == HOLES


@pytest.mark.parametrize("page", ["assembly.md", "bring-up.md"])
def test_the_text_names_no_other_hole(page: str) -> None:
    text = re.sub(r"<!-- made:.*?<!-- end made -->", "", (FOLDER / page).read_text("utf-8"), flags=re.DOTALL)
    named = {(int(x), int(y)) for x, y in re.findall(r"[Hh]oles?\s(\d+),\s(\d+)", text)}
    assert named
    assert named <= set(HOLES) | SCREW_HOLES


@pytest.mark.parametrize("path", [*(FOLDER / page for page in PAGES), SAFETY], ids=str)
def test_links_and_pictures_lead_somewhere(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    for target in re.findall(r"\]\(([^)]+)\)", text):
        name, _, anchor = target.partition("#")
        page = path if not name else (path.parent / name).resolve()
        assert page.exists(), f"{path}: {target}"
        if anchor:
            assert anchor in anchors(page), f"{path}: {target}"


def anchors(page: Path) -> set[str]:
    text = page.read_text(encoding="utf-8")
    heads = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    made = {re.sub(r"[^\w\- ]", "", head.lower()).replace(" ", "-") for head in heads}
    return made | set(re.findall(r'<a id="([^"]+)"', text))


def test_a_page_that_asks_for_what_nobody_makes_is_refused() -> None:
    with pytest.raises(ValueError, match="nothing makes 'moon'"):
        pages.fill("<!-- made: moon -->\n<!-- end made -->", {"sun": ""}, Path("page.md"))


def test_every_made_part_is_used_on_some_page() -> None:
    text = "".join((FOLDER / page).read_text("utf-8") for page in PAGES)
    assert [
        name for name in made_parts(CIRCUIT, route(CIRCUIT)) if f"<!-- made: {name} -->" not in text
    ] == []


def test_the_pin_table_of_the_page_names_every_pin() -> None:
    text = (FOLDER / "README.md").read_text("utf-8")
    for pin in read_pins().values():
        assert f"| {pin.name} | GP{pin.gpio} | {pin.edge or 'on the board'} |" in text


# Common cautions of the trade; the subjects that the page must not lose.
SUBJECTS = ("licensed", "local electrical codes", "RCD", "line conductor", "fuse", "inrush", "weld", "leak",
            "LED heads", "wet hands", "foot switch", "computer", "switch by the door", "unplug", "earth",
            "active-low", "chemistry.md", "not certified",
            "second relay", "emergency light")  # fmt: skip


@pytest.mark.parametrize("subject", SUBJECTS)
def test_the_safety_page_speaks_of(subject: str) -> None:
    assert subject.lower() in SAFETY.read_text("utf-8").lower()


def test_the_supply_and_the_fuse_carry_the_worst_sum() -> None:
    usual, most = budget.total_ma()
    assert usual < most < budget.FUSE_HOLD_MA < budget.SUPPLY_MA


def test_display_currents() -> None:
    """MAX7219 data sheet: R_SET of 63.7 kΩ gives 10 mA into 2.0 V LEDs; duty 31/32 at full, 1/32 at least."""
    assert pytest.approx(9.37, abs=0.01) == budget.SEGMENT_MA
    assert budget.display_test_ma() == pytest.approx(4 * 8 + 4 * 8 * 9.368 * 31 / 32, rel=1e-3)
    assert budget.display_test_ma(40.0) > budget.FUSE_HOLD_MA > budget.display_test_ma()
    assert budget.display_ma(0, 0.0) == pytest.approx(32.0)


def test_the_committed_simulation_kept_every_bound() -> None:
    rows = read_checks()
    assert len(rows) > 40
    assert {row["kept"] for row in rows} == {"yes"}
