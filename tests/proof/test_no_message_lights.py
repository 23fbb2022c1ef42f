"""No message lights the lamp (rule I5), as a fact of the code: no call leads from the link to a light.

The graph has rather too many ways than too few (`call_graph`); that it finds the true ones is shown by the
ways that there are, and by ways that are planted. What it cannot show, that a value left by a message is not
acted on later, the campaigns try.
"""

import ast
from functools import cache
from pathlib import Path

import pytest
from tests.proof.call_graph import CallGraph, Name, read_sources

FIRMWARE = Path(__file__).parents[2] / "firmware"
SESSION, PORT, APP = "footlight_core.session", "controller.port", "controller.app"
READS_THE_LINK = (SESSION, PORT)
START: Name = ("controller.lamp", "Lamp.start")
# What lights: the lamp itself, the two rows' actions that ask for it, and the step along the table.
LIGHTS: tuple[Name, ...] = (
    START,
    ("footlight_core.actions", "light"),
    ("footlight_core.actions", "light_focus"),
    ("footlight_core.sequencer", "Sequencer.handle"),
)
# By these a program could move the pins past `lamp.py`.
PINS = {"LAMP_GATE", "LAMP_PUMP", "StateMachine", "mem32", "mem16", "mem8"}


@cache
def sources() -> dict[str, str]:
    return read_sources(FIRMWARE)


@cache
def graph() -> CallGraph:
    return CallGraph(sources())


def ways(graph: CallGraph, *targets: Name) -> list[list[Name]]:
    """Each way from what reads the link to a target."""
    found = [graph.way(graph.functions(module), target) for module in READS_THE_LINK for target in targets]
    return [way for way in found if way]


def test_no_way_leads_from_the_link_to_the_lamp():
    assert ways(graph(), *LIGHTS) == []


def test_the_ways_that_there_are_are_found():
    assert graph().way(graph().functions(APP), START)
    for target in LIGHTS:
        assert graph().way([("main", "main")], target)
        assert target in graph().calls


def test_what_the_link_reaches_names_no_pin():
    reached = {name for module in READS_THE_LINK for name in graph().functions(module)}
    waiting = list(reached)
    while waiting:
        news = graph().calls.get(waiting.pop(), set()) - reached
        reached |= news
        waiting += news
    trees = [graph().modules[module].functions[function] for module, function in reached]
    assert PINS & {name for tree in trees for name in named(tree)} == set()
    assert len(trees) > 30


def named(tree: ast.AST) -> set[str]:
    """Every name, attribute and text of a function."""
    names = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)}
    names |= {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    texts = (node.value for node in ast.walk(tree) if isinstance(node, ast.Constant))
    return names | {text for text in texts if isinstance(text, str)}


PLANTED = {
    "in a message": (SESSION, "def planted(box):\n    box.lamp.start(5)\n"),
    "in a class of its own": (
        SESSION,
        "class Planted:\n def _do_light(self):\n  self._box.start(5)\n",
    ),
    "by a made-up name": (SESSION, "def planted(box):\n    getattr(box, 'sta' + 'rt')(5)\n"),
    "in the port": (
        PORT,
        "from controller.lamp import Lamp\ndef planted(lamp):\n    Lamp.start(lamp, 5)\n",
    ),
    "as a file": (PORT, "from controller import app\n\ndef planted():\n    app.App.run\n"),
    "in what it calls": (
        "controller.store",
        "class Planted:\n def begin(self, lamp):\n  lamp.start(5)\n",
    ),
    "by an event": (SESSION, "def planted(sequencer):\n    sequencer.handle(1, 2, 3)\n"),
    "by a row": (SESSION, "from footlight_core.table import ROWS\n\ndef planted():\n    ROWS[0][3]()\n"),
}


@pytest.mark.parametrize("where", PLANTED)
def test_a_planted_way_is_found(where: str):
    module, source = PLANTED[where]
    spoilt = sources() | {module: sources()[module] + "\n\n" + source}
    assert ways(CallGraph(spoilt), *LIGHTS)


class _HandOn(ast.NodeTransformer):
    """The app hands the session what lights in place of what tells its status."""

    done = 0

    def visit_Call(self, node: ast.Call) -> ast.Call:
        self.generic_visit(node)
        if isinstance(node.func, ast.Name | ast.Attribute) and ast.unparse(node.func).endswith("Session"):
            for at, value in enumerate(node.args):
                if ast.unparse(value) == "self.status":
                    node.args[at] = ast.parse("self._light", mode="eval").body
                    self.done += 1
        return node


def test_what_is_handed_on_to_be_called_is_found():
    hand = _HandOn()
    source = ast.unparse(hand.visit(ast.parse(sources()[APP])))
    assert hand.done == 1
    assert ways(CallGraph(sources() | {APP: source}), START)
