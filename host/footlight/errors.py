"""The one root of every error that the tool reports to a person."""

# What a command ends with, for scripts. An error class has one of them as `exit_code`.
EXIT_CODES = {
    0: "done",
    1: "something is wrong that no other code names; `bringup`: a part does not do what it should",
    2: "what was typed, or stands in a file, is missing, malformed or out of range; nothing was done",
    3: "no controller, or no board, is there",
    4: "several are there, and none was named",
    5: "the link: the port cannot be opened, nothing answers, or the controller said no",
    6: "the board: in use, another one, or its MicroPython does not do",
    7: "the notebook: it cannot be opened, read or written, or has nothing of the name or number that was "
    "typed (sheet, paper, bath, lens, evening, act); nothing in it was changed",
    130: "ended by Ctrl-C",
}


class FootlightError(Exception):
    """A fault that the user can mend.

    The text is one line: what is wrong (file, step, key, value), what is allowed, what to do.
    `cli.main` prints it and exits with `exit_code`.
    """

    exit_code = 1


class InputError(FootlightError):
    """A value given by the user (file, option, argument) is missing, malformed or out of range."""

    exit_code = 2
