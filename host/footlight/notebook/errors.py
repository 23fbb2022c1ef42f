"""What can be wrong with a notebook."""

from footlight.errors import FootlightError


class NotebookError(FootlightError):
    """The notebook cannot be opened, read or written. Nothing in it was changed."""

    exit_code = 7
