"""What `make quick` chooses for a change."""

from tests.quick import ALWAYS, ROOT, TESTS, chosen_for


def test_every_room_of_the_tool_has_its_tests():
    rooms = {
        path.relative_to(ROOT).as_posix() + "/"
        for path in (ROOT / "host" / "footlight").iterdir()
        if path.is_dir() and not path.name.startswith("_")
    }
    assert rooms - set(TESTS) == set()


def test_what_is_chosen_is_there():
    missing = [test for tests in TESTS.values() for test in tests if not (ROOT / test).exists()]
    assert missing == []


def test_the_longest_beginning_decides():
    assert chosen_for(["host/footlight/light/inverse.py"]) == [*ALWAYS, "tests/host/light"]
    assert "tests/core" in chosen_for(["firmware/footlight_core/table.py"])
    assert "tests/core" not in chosen_for(["firmware/controller/lamp.py"])


def test_a_test_that_was_changed_runs_itself_and_nothing_runs_twice():
    chosen = chosen_for(["tests/host/test_settings.py", "host/footlight/settings/file.py"])
    assert chosen == [*ALWAYS, "tests/host/test_settings.py"]


def test_what_nothing_tests_still_meets_the_walls():
    assert chosen_for(["LICENSE"]) == [*ALWAYS]
