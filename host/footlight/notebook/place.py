"""Where the notebook lies."""

from pathlib import Path

from footlight.folders import user_folder
from footlight.notebook.errors import NotebookError
from footlight.notebook.mounts import network_kind

FILE_NAME = "notebook.sqlite"


def default_path() -> Path:
    """The notebook in this platform's folder for a user's data."""
    return user_folder("data") / FILE_NAME


def refuse_network(path: Path) -> None:
    """Raise NotebookError if `path` lies on another computer."""
    kind = network_kind(path.absolute().parent)
    if kind:
        raise NotebookError(
            f"{path}: this folder is on the network ({kind}), where two computers can write at once and "
            "spoil the notebook; keep it on a disk of this computer and copy it with a back-up"
        )
