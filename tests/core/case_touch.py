"""A press begins when the foot leaves rest: what stopped a light means nothing more, however it bounces."""

from checking import Stage, check, finish, head, light

from footlight_core import gestures as g
from footlight_core import recovery
from footlight_core import states as st

REST = (False, True)
BETWEEN = (False, False)
DOWN = (True, False)


def touch_of(changes, until_ms=2000):
    """When the last press first touched [ms], looking each ms."""
    foot = g.Gestures()
    contacts = REST
    changes = list(changes)
    for now_ms in range(until_ms):
        while changes and changes[0][0] == now_ms:
            contacts = changes.pop(0)[1]
        foot.feed(now_ms, contacts[0], contacts[1])
    return foot.press_ms()


check("the press begins as rest opens", touch_of(((100, BETWEEN), (108, DOWN))), 100)
check(
    "rest may bounce before make closes",
    touch_of(((100, BETWEEN), (103, REST), (106, BETWEEN), (112, DOWN))),
    100,
)
check("a second press has its own beginning", touch_of(((100, DOWN), (300, REST), (900, DOWN))), 900)
check(
    "bounce of the release is not a new touch",
    touch_of(((100, DOWN), (300, REST), (304, DOWN), (306, REST))),
    100,
)


def held(touch_ms, event):
    """A light ended by hardware at 5000; then a gesture whose press was first seen at `touch_ms`."""
    stage = Stage(head(light(10_000)))
    stage.states((st.LONG, 1000), (st.LONG, 2000), (st.SHORT, 4000))
    stage.until(5000)
    stage.gate_off_ms = None
    stage.seq.handle(st.GATE, 1000, 5000)
    stage.event(event, 6500, touch_ms)
    return stage.seq.state


check("seen with the stop: nothing", held(5000, st.SHORT), st.HELD)
check("seen one look after the stop: not resumed", held(5010, st.SHORT), st.HELD)
check("seen one look after the stop, held long: not abandoned", held(5010, st.LONG), st.HELD)
check("a later long press abandons", held(5400, st.LONG), st.DONE)
check("a later short press resumes", held(5600, st.SHORT), st.LIT)

told = recovery.Recovery()
told.feed({"k": "intent", "run": 0, "step": 0, "sheet": 0, "light_ms": 9, "gate_ms": 9})
check("a set-up light cut off is open", told.focus_open, True)
told.feed({"k": "cut", "run": 0, "step": 0, "sheet": 0, "least_ms": 0, "most_ms": 9})
check("and told once", (told.focus_open, told.most_ms()), (False, 0))
finish()
