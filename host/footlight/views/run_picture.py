"""The live picture of `watch`: large enough to be read from a step away, and dark everywhere else."""

from rich.align import Align
from rich.console import Group, RenderableType
from rich.layout import Layout
from rich.progress_bar import ProgressBar
from rich.style import Style
from rich.table import Table
from rich.text import Text

from footlight.actions.watch_run import RunStatus
from footlight.views.plain_text import plain
from footlight.views.run_status import status_lines

# Red alone, far below full: what a screen can do against stray light, which is not enough.
_DIM = Style(color="#5a0000", bgcolor="#000000")
_LESS = Style(color="#300000", bgcolor="#000000")
_PLAIN = Style()


def picture(moment: RunStatus | str, dim: bool) -> RenderableType:
    """The whole screen for one moment, or for a controller that is away."""
    style = _DIM if dim else _PLAIN
    if isinstance(moment, str):
        body: RenderableType = Text(plain(f"away: {moment}"), style=style)
    else:
        body = Group(
            *[Text(plain(line), style=style) for line in status_lines(moment)],
            *_bar(moment, dim),
            _steps(moment, dim),
        )
    return Layout(Align.center(body, vertical="middle", style=style))


def _bar(moment: RunStatus, dim: bool) -> list[RenderableType]:
    total_ms = moment.step.get("time_ms") or moment.step.get("most_ms")
    if moment.passed_ms is None or not total_ms:
        return []
    done, rest = (_DIM, _LESS) if dim else (Style(bold=True), Style(dim=True))
    return [
        ProgressBar(
            total=total_ms,
            completed=min(moment.passed_ms, total_ms),
            width=40,
            style=rest,
            complete_style=done,
            finished_style=done,
        ),
        Text(""),
        Text(""),
    ]


def _steps(moment: RunStatus, dim: bool) -> RenderableType:
    """The whole run as a list, the present step marked."""
    if not moment.in_run:
        return Text("")
    table = Table.grid(padding=(0, 1))
    for number, step in enumerate(moment.planned, 1):
        here = number == moment.status["step"]
        style = (_DIM if here else _LESS) if dim else Style(bold=here, dim=not here)
        table.add_row(
            Text("▸" if here else " ", style), Text(f"{number}", style), Text(plain(step["name"]), style)
        )
    return table
