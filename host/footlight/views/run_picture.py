"""The live picture of `watch`: large enough to be read from a step away, and dark everywhere else."""

import sys

from rich.align import Align
from rich.console import Console, Group, RenderableType
from rich.layout import Layout
from rich.live import Live
from rich.progress_bar import ProgressBar
from rich.style import Style
from rich.table import Table
from rich.text import Text

from footlight.cli.terminal import free, plain
from footlight.cli.watching import Moment, Source, lines_of

# Red alone, far below full: what a screen can do against stray light, which is not enough.
_DIM = Style(color="#5a0000", bgcolor="#000000")
_LESS = Style(color="#300000", bgcolor="#000000")
_PLAIN = Style()


def show(source: Source, dim: bool) -> None:
    """A picture that follows the run until Ctrl-C: dim red on black, or the terminal's own colours."""
    with free(sys.stdout), Live(console=Console(), screen=True, auto_refresh=False) as live:
        try:
            for moment in source.moments():
                live.update(picture(moment, dim), refresh=True)
        except KeyboardInterrupt:
            return


def picture(moment: Moment | str, dim: bool) -> RenderableType:
    """The whole screen for one moment, or for a controller that is away."""
    style = _DIM if dim else _PLAIN
    if isinstance(moment, str):
        body: RenderableType = Text(plain(f"away: {moment}"), style=style)
    else:
        body = Group(
            *[Text(plain(line), style=style) for line in lines_of(moment)],
            *_bar(moment, dim),
            _steps(moment, dim),
        )
    return Layout(Align.center(body, vertical="middle", style=style))


def _bar(moment: Moment, dim: bool) -> list[RenderableType]:
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


def _steps(moment: Moment, dim: bool) -> RenderableType:
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
