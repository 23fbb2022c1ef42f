"""The one root of every error that the tool reports to a person."""


class FootlightError(Exception):
    """A fault that the user can mend.

    The text is one line: what is wrong (file, step, key, value), what is allowed, what to do.
    `cli.main` prints it and exits with `exit_code`.
    """

    exit_code = 1


class InputError(FootlightError):
    """A value given by the user (file, option, argument) is missing, malformed or out of range."""

    exit_code = 2
