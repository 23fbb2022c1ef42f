"""An error says a field and an act in the words of whoever tells it."""

from click.testing import CliRunner

from footlight.cli.table import Table
from footlight.errors import InputError, act, field, spoken


def test_plain_words_until_somebody_tells_it():
    error = InputError(f"{field('exposure_index')} is missing; see {act('paper found')}")
    assert str(error) == "exposure index is missing; see paper found"


def test_what_a_person_typed_is_never_taken_for_a_mark():
    assert spoken("'{height}' <height> [height]") == "'{height}' <height> [height]"


def test_the_command_line_says_options_and_commands():
    group = Table("top", rows={"time": ("time", "")}, package="footlight.cli.light")
    result = CliRunner().invoke(group, ["time", "nonsense", "800 mm"])
    assert isinstance(result.exception, InputError)
    result.exception.told_as = None
    group = Table("top", rows={"expose": ("expose", "")}, package="footlight.cli")
    result = CliRunner().invoke(group, ["expose", "41", "--again", "--as", "40"])
    assert isinstance(result.exception, InputError), result.output
    assert "--again" in str(result.exception)
