"""Writes docs/states.md from the transition table of the core: `python docs/make_states.py`."""

from pathlib import Path

from footlight_core import states as st
from footlight_core.table import TABLE

PAGE = Path(__file__).with_name("states.md")
GROUPS = (
    ("Choosing", (st.IDLE, st.PICK, st.DONE, st.BROKEN, st.DOUBT, st.FOCUS, st.FOCUS_LIT)),
    (
        "Baths, steps by hand, steps judged by eye, pauses",
        (st.READY, st.MENU, st.BATH, st.LIFT, st.OVER, st.JUDGED, st.PAUSED),
    ),
    ("Light", (st.LIT, st.HELD)),
    ("Fault", (st.FAULT,)),
)
# Next states that depend on the program and on what went before; `entries.resolve` knows which they are.
RESOLVED = (
    (st.OPENED, (st.PICK, st.READY, st.PAUSED, st.IDLE)),
    (st.REARMED, (st.READY, st.PAUSED, st.IDLE)),
    (st.START_NEXT, (st.BATH, st.JUDGED, st.PAUSED, st.READY, st.DONE)),
    (st.WAIT_NEXT, (st.READY, st.PAUSED, st.BATH, st.JUDGED, st.DONE)),
    (st.WAIT_HERE, (st.READY, st.PAUSED, st.DOUBT)),
    (st.ORIGIN, tuple(state for state in st.STATES if state not in (st.LIT, st.FOCUS_LIT, st.FAULT))),
)
HEAD = """# States of the controller

Made from the transition table `firmware/footlight_core/table.py` by `docs/make_states.py`; a test holds
this page to it. The first row of a state whose condition holds is taken. What is not here changes nothing.

`press` is the foot going down; `short` (less than a second) and `long` (one to eight seconds) are told on
release; `due` and `beat` are timers; `gate` is the report of an exposure that ended; `trouble` is a fault.
A gesture counts only if its press began after the state was entered.

Some next states depend on the sequence:
"""


def mermaid_name(state: str) -> str:
    """A state as an identifier of a Mermaid diagram."""
    return state.replace(" ", "_")


def arrows(state: str) -> list[str]:
    """Arrows that leave a state; trouble, which is the same everywhere, is left out."""
    lines = []
    for source, event, guard, _, target in TABLE:
        if source != state or target is None or event == st.TROUBLE:
            continue
        label = event if guard.__name__ == "always" else f"{event}, {guard.__name__.replace('_', ' ')}"
        lines.append(f"    {mermaid_name(source)} --> {mermaid_name(target)}: {label}")
    return lines


def rules(state: str) -> list[str]:
    """The rows of a state as a table."""
    lines = ["| event | if | then | next |", "|---|---|---|---|"]
    for source, event, guard, action, target in TABLE:
        if source != state or (event == st.TROUBLE and state != st.FAULT):
            continue
        lines.append(f"| {event} | {first_line(guard)} | {first_line(action)} | {target or '(stays)'} |")
    return lines


def first_line(function) -> str:
    """What a guard or an action says of itself."""
    return function.__doc__.split("\n")[0].rstrip(".")


def page() -> str:
    """The whole page."""
    lines = [HEAD]
    lines += [f"- *{name}*: {', '.join(targets)}" for name, targets in RESOLVED]
    lines += [
        "",
        "From every state but *fault* itself, trouble leads to *fault*: the lamp goes dark at once.",
        "",
    ]
    for title, states in GROUPS:
        lines += [f"## {title}", "", "```mermaid", "stateDiagram-v2"]
        lines += [arrow for state in states for arrow in arrows(state)]
        lines += ["```", ""]
        for state in states:
            lines += [f"### {state}", "", *rules(state), ""]
    return "\n".join(lines)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
