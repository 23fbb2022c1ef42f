"""Folding, on small firmwares: what is written out, what goes, what stays, and what is refused."""

import pytest

from footlight.install.errors import InstallError
from footlight.install.folding import folded

CORE = "footlight_core/__init__.py"
STATES = "footlight_core/states.py"
RUN = "footlight_core/run.py"
APP = "controller/app.py"


def lines(text: str) -> list[str]:
    """The text without what means nothing."""
    return [line for line in text.splitlines() if line.strip() not in ("", "pass")]


def fold(users: str = "", **texts: str) -> dict[str, list[str]]:
    """By the files' short names: sources -> the lines that are left."""
    paths = {"core": CORE, "states": STATES, "run": RUN, "app": APP}
    parts = {paths[name]: text for name, text in texts.items()}
    made = folded(parts, {"main.py": users})
    assert list(made) == list(parts)
    return {name: lines(made[paths[name]]) for name in texts}


# -- written out -----------------------------------------------------------------------------------


def test_numbers_and_texts_of_another_file():
    made = fold(
        states='LIT = "lit"\nNO_FAULT = 0\nNEVER_MS = -1\n',
        run=(
            "from . import states as st\n"
            "from .states import NEVER_MS\n"
            "def f(x):\n"
            "    return x.at == st.LIT, st.NO_FAULT, NEVER_MS.real\n"
        ),
        app="from footlight_core import states\nfrom footlight_core.run import f\nf(states.LIT)\n",
    )
    assert made == {
        "states": [],
        "run": ["def f(x):", "    return x.at == 'lit', (0), (-1).real"],
        "app": ["from footlight_core.run import f", "f('lit')"],
    }


def test_a_number_of_the_file_itself_and_its_const():
    made = fold(run="from . import const\n_MOST = const(64)\ndef f(x):\n    return x ** _MOST\n", core="")
    assert made["run"] == ["def f(x):", "    return x ** (64)"]


def test_const_stays_where_something_else_needs_it():
    made = fold(core="", run="from . import const\n_A = const(1)\n_B = const(1 << 30)\nf(_A, _B)\n")
    assert made["run"] == ["from . import const", "_B = const(1 << 30)", "f((1), _B)"]


def test_an_import_keeps_what_is_still_wanted():
    made = fold(
        states="A = 1\ndef f():\n    return A\n",
        run="from .states import (\n    A,\n    f as g,\n)\nprint(g(), A)\n",
    )
    assert made["run"] == ["from .states import f as g", "print(g(), (1))"]
    assert made["states"] == ["def f():", "    return (1)"]


def test_statements_that_share_a_line_and_words_of_many_bytes():
    made = fold(states='A = 1; B = "é"  # two\nC = 2; print(C)\n', run='from .states import B\nx = "ü", B\n')
    assert made["states"] == ["pass; pass  # two", "pass; print((2))"]
    assert made["run"] == ["x = \"ü\", '\\xe9'"]


def test_text_in_quotes_comments_and_docstrings_is_left():
    text = '"""Of A."""\nB = 5\ndef f():\n    """B."""  # B\n    return "A", "B", B\n'
    made = fold(states="A = 1\n", run="from .states import A\n" + text + "f(A)\n")
    assert made["run"] == [*lines(text.replace(", B\n", ", (5)\n").replace("B = 5\n", "")), "f((1))"]


def test_arguments_and_attributes_of_the_same_name_are_others():
    made = fold(states="A = 1\n", run="from . import states as st\nf(A=st.A).A = g.A\n")
    assert made == {"states": [], "run": ["f(A=(1)).A = g.A"]}


# -- a text only where it takes no more room -------------------------------------------------------


LONG = "a text that is much longer than its name"


def test_a_long_text_in_one_file_goes_there():
    made = fold(states=f'A = "{LONG}"\n', run="from . import states as st\nf(st.A, st.A)\n")
    assert made == {"states": [], "run": [f"f('{LONG}', '{LONG}')"]}


def test_a_long_text_in_several_files_stays_a_name():
    users = {
        "run": "from . import states as st\nf(st.A)\n",
        "app": "from footlight_core.states import A\nf(A)\n",
    }
    made = fold(states=f'A = "{LONG}"\n', **users)
    assert made == {"states": [f'A = "{LONG}"'], **{name: lines(text) for name, text in users.items()}}


# -- not constant ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "definition",
    [
        "A = True\n",
        "A = 1.5\n",
        'A = b"x"\n',
        "A = (1, 2)\n",
        "A = 2 * 8\n",
        "A = f()\n",
        "A = const(f())\n",
        "Aa = 1\n",
        "A = B = 1\n",
        "A = 1\nA = 2\n",
        "A = 1\nA += 1\n",
        "A = 1\ndel A\n",
        "A = 1\ndef f():\n    global A\n    A = 2\n",
        "if f():\n    A = 1\n",
        "A = 1\nfor A in f():\n    print(A)\n",
        "A = 1\ntry:\n    f()\nexcept OSError as A:\n    print(A)\n",
        "A = 1\nimport A\n",
        "A = 1\ndef A():\n    return 2\n",
        "A = 1\nclass A:\n    b = 1\n",
        "A = 1\nwith f() as A:\n    print(A)\n",
        "A = 1\nf(A := 2)\n",
        "A = 1\nf(A is None)\n",
        "A = 1\nf(A, A is not A)\n",
    ],
)
def test_what_is_no_constant_keeps_its_name_everywhere(definition: str):
    name = "Aa" if definition.startswith("Aa") else "A"
    use = f"from .states import {name}\nf({name})\n"
    made = fold(states=definition, run=use)
    assert made == {"states": lines(definition), "run": lines(use)}


@pytest.mark.parametrize(
    "change",
    ["st.A = 2\n", "st.A += 2\n", "del st.A\n", "for st.A in f():\n    g()\n", "setattr(st, 'A', 2)\n"],
)
def test_what_another_file_changes_keeps_its_name(change: str):
    change = "from . import states as st\n" + change
    use = "from footlight_core.states import A\nf(A)\n"
    made = fold(states="A = 1\nf(A)\n", run=change, app=use)
    assert made == {"states": ["A = 1", "f(A)"], "run": lines(change), "app": lines(use)}


@pytest.mark.parametrize(
    "body",
    [
        "def f(A):\n    return A\n",
        "def f():\n    A = 2\n    return A\n",
        "f = lambda A: A\n",
        "f = [A for A in (2, 3)]\n",
        "def f():\n    for A in (2, 3):\n        return A\n",
        "class F:\n    A = 2\n    b = A\n",
    ],
)
def test_a_name_that_is_given_twice_in_a_file_is_left_alone_there(body: str):
    text = "from .states import A\n" + body + "f(A)\n"
    made = fold(states="A = 1\n", run=text, app="from footlight_core.states import A\nf(A)\n")
    assert made == {"states": ["A = 1"], "run": lines(text), "app": ["f((1))"]}


def test_a_file_whose_name_is_given_twice_is_left_alone_there():
    text = "from . import states as st\ndef f(st):\n    return st.A\nf(st.B)\n"
    made = fold(states="A = 1\nB = 2\nC = 3\n", run=text)
    assert made == {"states": ["A = 1", "B = 2"], "run": lines(text)}


def test_within_a_formatted_text_a_name_stays():
    text = "from . import states as st\nf(f'{st.A} {st.B!r}')\n"
    made = fold(states='A = "it\'s"\nB = 2\nf(B)\n', run=text)
    assert made == {"states": ['A = "it\'s"', "B = 2", "f((2))"], "run": lines(text)}


def test_what_is_asked_for_as_the_very_object_keeps_its_name():
    made = fold(states='A = "a"\nB = "b"\nRULES = (A, B)\nf(x is A, x == B)\n')
    assert made["states"] == ['A = "a"', "RULES = (A, 'b')", "f(x is A, x == 'b')"]


# -- who still needs it ----------------------------------------------------------------------------


def test_whoever_is_not_folded_finds_what_it_names():
    made = fold(
        "from controller import app\nfrom footlight_core.states import B as b\nprint(app.A, app.run)\n",
        states="A = 1\nB = 2\n",
        app="from footlight_core.states import B\nA = 1\nC = 3\ndef run():\n    return A, B, C\n",
    )
    assert made["states"] == ["B = 2"]
    assert made["app"] == ["A = 1", "def run():", "    return (1), (2), (3)"]


def test_what_is_handed_on_from_file_to_file_stays():
    made = fold(
        states="A = 1\nB = 2\nC = 3\n",
        run="from .states import A, B\nfrom . import states as st\nf(A, B, st.C)\n",
        app="from footlight_core.run import A\nfrom footlight_core import run\nf(A, run.st.C)\n",
    )
    # The second way leads to a file as a whole, of which then everything stays.
    assert made["states"] == ["A = 1", "B = 2", "C = 3"]
    assert made["run"] == ["from .states import A, B", "from . import states as st", "f(A, B, st.C)"]
    made = fold(
        states="A = 1\nB = 2\n",
        run="from .states import A, B\nf(A, B)\n",
        app="from footlight_core.run import A\nf(A)\n",
    )
    assert made["states"] == ["A = 1"]
    assert made["run"] == ["from .states import A", "f((1), (2))"]
    assert made["app"] == ["from footlight_core.run import A", "f(A)"]


@pytest.mark.parametrize("reached", ["getattr(st, 'A')", "g(st)", "st", "[st]"])
def test_a_file_that_is_handed_on_as_a_whole_keeps_all_its_names(reached: str):
    texts = {"states": "A = 1\nB = 2\nf(B)\n", "run": f"from . import states as st\nx = {reached}\nf(st.A)\n"}
    assert fold(**texts) == {name: lines(text) for name, text in texts.items()}


def test_an_import_within_a_block_stays():
    text = "def f():\n    from .states import A\n    return A\n"
    assert fold(states="A = 1\n", run=text) == {"states": ["A = 1"], "run": lines(text)}


def test_a_name_that_may_come_from_two_files_stays_in_both():
    text = "from .states import A\ntry:\n    from controller.app import A\nexcept ImportError:\n    f(A)\n"
    made = fold(states="A = 1\nB = 1\n", run=text, app="A = 2\nB = 2\n")
    assert made == {"states": ["A = 1"], "run": lines(text), "app": ["A = 2"]}
    text = "from . import states as st\ndef f():\n    from controller import app as st\n    return st.A\n"
    made = fold(states="A = 1\nB = 1\n", run=text, app="A = 2\nB = 2\n")
    assert made == {"states": ["A = 1"], "run": lines(text), "app": ["A = 2"]}
    text += "    return g(st)\n"
    made = fold(states="A = 1\nB = 1\n", run=text, app="A = 2\nB = 2\n")
    assert made == {"states": ["A = 1", "B = 1"], "run": lines(text), "app": ["A = 2", "B = 2"]}


def test_an_import_that_nothing_ever_used_stays_for_what_it_does():
    text = "from . import states\nfrom .states import A\n"
    assert fold(states="A = 1\n", run=text) == {"states": ["A = 1"], "run": lines(text)}


def test_other_modules_of_the_same_names_are_no_concern():
    text = "import states\nfrom machine import A\nfrom os import states as st\nf(states.A, A, st.A)\n"
    assert fold(states="A = 1\n", run=text) == {"states": [], "run": lines(text)}


# -- refused ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("\nfrom .states import *\n", r"footlight_core/run.py, line 2: .*by '\*' nobody can tell"),
        ("import footlight_core.states as st\n", "line 1: write 'from … import …'"),
        ("x = vars()['A']\n", "line 1: 'vars' may reach names"),
        ("def f():\n    return globals()\n", "line 2: 'globals' may reach"),
        ("x = dir()\n", "'dir' may reach"),
        ("eval('A')\n", "'eval' may reach"),
        ("x = __import__('footlight_core.states')\n", "'__import__' may reach"),
        ("x = (\n", "footlight_core/run.py, line 1: .*was never closed"),
    ],
)
def test_what_cannot_be_followed_is_refused(text: str, why: str):
    with pytest.raises(InstallError, match=why) as error:
        fold(states="A = 1\n", run=text)
    assert "\n" not in str(error.value)


def test_whoever_is_not_folded_is_held_to_the_same():
    with pytest.raises(InstallError, match=r"main.py, line 1: .*by '\*'"):
        fold("from footlight_core.states import *\n", states="A = 1\n")


# -- the same every time ---------------------------------------------------------------------------


def test_folding_is_settled_and_takes_no_notice_of_the_order_of_files():
    texts = {
        STATES: 'LIT = "lit"\nA = 1\nB = 2 * A\n',
        RUN: "from . import states as st\nfrom .states import A, B\nf(st.LIT, A, B, st.B)\n",
        APP: "from footlight_core import states as st\nx = st.LIT\n",
    }
    once = folded(texts, {})
    assert folded(dict(reversed(texts.items())), {}) == once
    assert folded(once, {}) == once
