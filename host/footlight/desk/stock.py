"""What stands on the shelf: baths, papers, lenses, light setups, with their history."""

from urllib.parse import quote

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from footlight.actions.chart_bath import chart_bath
from footlight.actions.list_baths import list_baths
from footlight.actions.list_baths import show_bath as bath_of
from footlight.actions.list_lenses import lens_cards, list_lenses
from footlight.actions.list_papers import list_papers
from footlight.actions.list_papers import show_paper as paper_of
from footlight.actions.list_setups import list_setups
from footlight.actions.trace_drift import trace_drift
from footlight.desk import pages
from footlight.desk.desk import Desk
from footlight.desk.entering import ENTRIES
from footlight.desk.prints import drawing
from footlight.desk.tonight import bath_links
from footlight.views import baths, drift, lenses, papers, setups

_PAGE = 100
_YEAR_S = 365 * 24 * 3600


def show(desk: Desk, request: Request, sent: FormData) -> Response:
    """Everything in stock."""
    if not desk.book.is_file():
        return pages.page(request, "stock-none.html", title="Stock", entries=ENTRIES)
    standing, boxes, glass = (
        list_baths(desk.book, desk.now_s()),
        list_papers(desk.book),
        list_lenses(desk.book),
    )
    changes = list_setups(desk.book, None, _PAGE)
    return pages.page(
        request,
        "stock.html",
        entries=ENTRIES,
        done=pages.act_done(desk, request),
        setup_links=[pages.address("/stock/setup", change.setup) for change in changes],
        title="Stock",
        baths=baths.grid(standing),
        notes=baths.notes(standing),
        papers=papers.grid(boxes),
        bath_links=bath_links(standing),
        paper_links=[f"/stock/paper/{quote(batch.name, safe='')}" for batch in boxes.batches],
        lens_links=[f"/stock/lens/{quote(lens.name, safe='')}" for lens in glass],
        in_use=papers.IN_USE,
        lenses=lenses.grid(glass),
        setups=setups.grid(changes),
    )


def show_bath(desk: Desk, request: Request, sent: FormData) -> Response:
    """One bath: the one that stands, or one before it."""
    name, before = request.path_params["name"], request.query_params.get("before", "0")
    ago = pages.whole_number(before, "before", least=0)
    condition = bath_of(desk.book, name, ago, desk.now_s())
    points = chart_bath(desk.book, name, desk.now_s(), None, False)
    return pages.page(
        request,
        "bath.html",
        title=f"Bath {name}",
        name=name,
        before=ago,
        lines=baths.about(condition),
        visits=baths.visits(condition),
        points=baths.point_grid(points),
    )


def bath_chart(desk: Desk, request: Request, sent: FormData) -> Response:
    """What the prints showed against use and age."""
    name = request.path_params["name"]
    return drawing(lambda path: chart_bath(desk.book, name, desk.now_s(), path, False))


def show_paper(desk: Desk, request: Request, sent: FormData) -> Response:
    """One batch of paper, and its sheets."""
    paper = paper_of(desk.book, request.path_params["name"])
    return pages.page(
        request,
        "paper.html",
        title=f"Paper {paper.batch.name}",
        name=paper.batch.name,
        lines=papers.about(paper),
        findings=papers.findings(paper),
    )


def show_lens(desk: Desk, request: Request, sent: FormData) -> Response:
    """One lens: its stops as they really are."""
    card = lens_cards(desk.book, [request.path_params["name"]])[0]
    return pages.page(
        request,
        "lens.html",
        title=f"Lens {card.lens.name}",
        head=lenses.card_title(card),
        card=lenses.card_grid(card),
    )


def show_setup(desk: Desk, request: Request, sent: FormData) -> Response:
    """One light setup over the year: planned, given, found good."""
    name = request.path_params["name"]
    traced = trace_drift(desk.book, name, desk.now_s() - _YEAR_S, None, False)
    return pages.page(
        request,
        "setup.html",
        title=f"Light setup {name}",
        name=name,
        references=drift.reference_lines(traced),
        lights=drift.light_grid(traced),
        ageing=drift.ageing_lines(traced),
        left_out=traced.left_out,
    )


def setup_drift(desk: Desk, request: Request, sent: FormData) -> Response:
    """The same, drawn."""
    since_s = desk.now_s() - _YEAR_S
    return drawing(lambda path: trace_drift(desk.book, request.path_params["name"], since_s, path, False))
