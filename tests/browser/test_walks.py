"""What a person does at the desk, by mouse and by keyboard, in a real browser."""

import re
import subprocess
import sys
import time
from pathlib import Path

from tests.browser.conftest import Open, command, served
from tests.controller.stage import armed

from footlight import sequence
from footlight.bench.serve import TCP, serving
from footlight.desk.desk import Desk


def test_a_verdict_in_two_taps_and_back_by_the_keyboard(page, desk: Open):
    page.goto(desk.home + "/prints")
    page.get_by_role("link", name="2", exact=True).click()
    page.get_by_role("button", name="good").click()
    assert "Written: sheet 2: verdict good" in page.inner_text("main")
    assert "verdict: good" in command(desk.book, "sheet", "2")
    back = page.get_by_role("button", name="Take it back")
    back.focus()
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile("/history/turn"))
    assert "taken back" in page.inner_text("main")
    assert "verdict: good" not in command(desk.book, "sheet", "2")


def test_two_prints_are_chosen_and_laid_beside_each_other(page, desk: Open):
    page.goto(desk.home + "/prints")
    page.get_by_label("lay 1 beside another").check()
    page.get_by_label("lay 2 beside another").check()
    page.get_by_role("button", name="Lay two beside each other").click()
    assert "usable" in page.inner_text("tr.differs:has-text('verdict')")


def test_the_answer_follows_the_hand_and_a_fault_stands_beside_its_field(page, desk: Open):
    page.goto(desk.home + "/reckon/time")
    page.get_by_label("What changes").fill("700 mm")
    page.wait_for_selector("#answer:has-text('700 mm')")
    assert "new=700%20mm" in page.url  # the address can be kept
    page.get_by_label("What changes").fill("700")
    page.wait_for_selector("#new-wrong:not(:empty)")
    assert page.get_attribute("#new", "aria-invalid") == "true"
    page.get_by_label("What changes").fill("700 mm")
    page.wait_for_selector("#new-wrong:empty", state="attached")
    page.wait_for_selector("#new:not([aria-invalid])")


def test_without_scripts_everything_but_live_values_works(browser, desk: Open):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(desk.way_in)
    page.goto(desk.home + "/reckon/time")
    page.fill("#new", "700 mm")
    page.get_by_role("button", name="Reckon").click()
    assert "at 700 mm" in page.inner_text("#answer")
    page.goto(desk.home + "/sequence/pre-flash.toml")
    page.get_by_role("button", name="Move step 2").click()
    assert "box the sheet" in page.inner_text(".steps li:first-child legend")
    page.goto(desk.home + "/prints/3")
    page.get_by_role("button", name="lost").click()
    assert "verdict lost" in page.inner_text("main")
    context.close()


def test_a_sequence_is_dragged_typed_shown_and_written(page, desk: Open):
    page.goto(desk.home + "/sequence/reversal-print.toml")
    legend = ".steps li[data-step='{}'] legend"
    page.locator(legend.format(2)).drag_to(page.locator(".steps li[data-step='1'] legend"))
    page.wait_for_selector(".steps li[data-step='1'] legend:has-text('rinse')")
    page.fill("#step-1--time", "soon")
    page.wait_for_selector("#step-1--time-wrong:not(:empty)")
    page.fill("#step-1--time", "45 s")
    page.wait_for_selector("#line:has-text('16:10')")
    page.get_by_role("button", name="Show what changes").click()
    assert page.locator("ins", has_text='time = "45 s"').count() == 1
    page.get_by_role("button", name="Write it into the file").click()
    page.wait_for_url(re.compile("/plan$"))
    steps = sequence.load(desk.folder / "reversal-print.toml").steps
    assert [step.name for step in steps[:2]] == ["rinse", "first developer"]


def test_what_an_editor_changes_is_taken_up_while_the_page_is_open(page, desk: Open):
    file = desk.folder / "pre-flash.toml"
    page.goto(desk.home + "/sequence/pre-flash.toml")
    file.write_text(file.read_text("utf-8").replace('name = "pre-flash', 'name = "new pre-flash'), "utf-8")
    page.wait_for_selector("#head--name[value^='new']", timeout=8_000)


def test_two_tabs_and_nobody_loses_a_word(page, desk: Open):
    other = page.context.new_page()
    for tab in (page, other):
        tab.goto(desk.home + "/prints/2")
        tab.get_by_text("Defects, a note").click()
    page.fill("#note", "from the first")
    page.get_by_role("button", name="Write it down").click()
    other.fill("#note", "from the second")
    other.get_by_role("button", name="Write it down").click()
    assert "was written about since" in other.inner_text("main")
    assert other.input_value("#note") == "from the second"
    other.get_by_role("button", name="Write it down").click()
    assert {"note: from the first", "note: from the second"} <= set(
        command(desk.book, "sheet", "2").splitlines()
    )


def test_a_run_is_watched_and_a_sequence_sent(page, desk: Open, tmp_path: Path):
    with (
        armed(tmp_path / "bench") as bench,
        serving(bench, TCP, speed=5.0) as address,
        served(Desk(desk.book, desk.folder, address)) as live,
    ):
        page.goto(live.way_in)
        page.goto(live.home + "/tonight/run")
        page.wait_for_selector("#run:has-text('ready')")
        bench.press()
        time.sleep(0.04)
        bench.release()
        page.wait_for_selector("#run:has-text('bath')")
        page.goto(live.home + "/sequence/pre-flash.toml/plan")
        page.get_by_role("button", name="Send it").click()
        said = page.inner_text("main")
    # Only an idle controller takes a sequence: the run comes first.
    assert "run" in said and "Send it" in said


def test_a_controller_that_is_away_is_told_in_its_place(page, desk: Open):
    page.goto(desk.home + "/tonight/run")
    page.wait_for_selector("#run:has-text('away')")
    page.goto(desk.home + "/sequence/pre-flash.toml/plan")
    page.get_by_role("button", name="Send it").click()
    assert page.locator("p.wrong[role=alert]").count() == 1


def test_a_killed_desk_loses_nothing(browser, desk: Open):
    words = ["desk", "--no-open", "--at", "0", "--folder", str(desk.folder), "--notebook", str(desk.book)]
    started = subprocess.Popen(
        [sys.executable, "-c", "from footlight.cli.main import run; run()", *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    assert started.stdout
    try:
        way_in = started.stdout.readline().strip()
        page = browser.new_page()
        page.goto(way_in)
        page.goto(way_in.split("/?")[0] + "/prints/4")
        page.get_by_role("button", name="usable").click()
        page.wait_for_selector("text=Written: sheet 4")
    finally:
        started.kill()
        started.communicate()
    page.context.close()
    assert "verdict: usable" in command(desk.book, "sheet", "4")
    assert "whole" in command(desk.book, "check")
