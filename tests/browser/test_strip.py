"""A scan is dropped, looked at, put right by hand, kept and accepted, in a real browser."""

from tests.browser.conftest import Open, command
from tests.browser.test_every_page import ALL_RULES, axe_on, over_px

from footlight.sequence.setups import load_setups

TABLET = "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1"


def test_a_strip_from_the_scan_to_the_reference(page, desk: Open):
    page.goto(desk.home + "/strip")
    page.set_input_files("#scan", desk.folder / "strip.tif")
    page.fill("#tablet", TABLET)
    page.get_by_role("button", name="Read it").click()
    assert "what light the strip got is not known" in page.inner_text("main")
    page.fill("#present", "8 s")
    page.fill("#centre", "8 s")
    page.get_by_role("button", name="Read it again").click()
    page.wait_for_selector(".outline")
    assert page.locator(".edge.movable").count() == 8
    assert axe_on(page, page.url, ALL_RULES) == [] and over_px(page, 320) <= 0
    page.set_viewport_size({"width": 1200, "height": 900})
    box = page.locator(".edge.movable").nth(2).bounding_box()
    middle = box["y"] + box["height"] / 2
    page.mouse.move(box["x"] + box["width"] / 2, middle)
    page.mouse.down()
    page.mouse.move(box["x"] + 6, middle)
    page.mouse.up()
    dragged = [float(part) for part in page.input_value("#edges").split(", ")]
    assert len(dragged) == 8 and dragged == sorted(dragged)
    corner = page.locator(".corner").nth(1).bounding_box()
    at = corner["x"] + corner["width"] / 2, corner["y"] + corner["height"] / 2
    page.mouse.move(*at)
    page.mouse.down()
    page.mouse.move(at[0] + 2, at[1] - 2)
    page.mouse.up()
    assert page.input_value("#corners").count(";") == 3
    page.get_by_role("button", name="Read it again").click()
    page.wait_for_selector(".outline")
    shown = float(page.locator(".edge.movable").nth(2).get_attribute("data-at"))
    assert abs(shown - dragged[2]) < 0.06
    page.get_by_role("button", name="Keep it").click()
    assert "Give " in page.inner_text("main")
    page.fill("#setup", "second")
    page.fill("#at", "800 mm, f/11")
    page.get_by_role("button", name="Show again").click()
    after = page.inner_text("dd strong")
    assert axe_on(page, page.url, ALL_RULES) == []
    page.get_by_role("button", name="Write it").click()
    assert "accepted" in page.inner_text("main")
    setups = load_setups(desk.folder / "light-setups.toml").setups
    assert str(setups["second"].setup.reference.seconds if setups["second"].setup.reference else "") in after
    assert "accepted" in command(desk.book, "history")


def test_what_is_no_scan_is_told_at_its_place_and_what_was_typed_stays(page, desk: Open):
    page.goto(desk.home + "/strip")
    page.set_input_files("#scan", {"name": "notes.tif", "mimeType": "image/tiff", "buffer": b"no scan"})
    page.fill("#present", "8 s")
    page.get_by_role("button", name="Read it").click()
    assert "notes.tif" in page.inner_text("#scan-wrong")
    assert page.input_value("#present") == "8 s"
