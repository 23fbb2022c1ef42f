"""Contacts in, gestures out."""

from checking import check, finish

from footlight_core import gestures as g

NAMES = ("", "press", "short", "long", "counts", "too long", "stuck", "wire", "wet")
OPEN = (False, True)  # make, rest
SHUT = (True, False)
BETWEEN = (False, False)


def run(changes, until_ms, at_rest=True):
    """Contact changes (ms, contacts) -> events as (ms, name), each at the ms when it can be known."""
    foot = g.Gestures()
    events = []
    contacts = OPEN if at_rest else SHUT
    changes = list(changes)
    for now_ms in range(until_ms + 1):
        while changes and changes[0][0] == now_ms:
            contacts = changes.pop(0)[1]
        event = foot.feed(now_ms, contacts[0], contacts[1])
        if event != g.NONE:
            events.append((now_ms, NAMES[event]))
    return events


def jumped(changes, until_ms):
    """The same, but looking only at changes and when the gestures ask for it."""
    foot = g.Gestures()
    events = []
    contacts = OPEN
    changes = list(changes)
    now_ms = 0
    while now_ms <= until_ms:
        while changes and changes[0][0] <= now_ms:
            contacts = changes.pop(0)[1]
        event = foot.feed(now_ms, contacts[0], contacts[1])
        if event != g.NONE:
            events.append((now_ms, NAMES[event]))
        due_ms = foot.due_ms()
        following = [ms for ms in (due_ms, changes[0][0] if changes else -1) if ms != g.NEVER_MS]
        if not following:
            break
        now_ms = max(min(following), now_ms + (1 if event == g.NONE else 0))
    return events


TAP = ((100, SHUT), (300, OPEN))
LONG = ((100, SHUT), (1700, OPEN))
BOUNCE = (
    (100, SHUT),
    (102, OPEN),
    (104, SHUT),
    (106, OPEN),
    (107, SHUT),
    (300, OPEN),
    (303, SHUT),
    (305, OPEN),
)

CASES = (
    ("a tap is press and short", TAP, 1000, [(125, "press"), (325, "short")]),
    ("two seconds are long", LONG, 3000, [(125, "press"), (1100, "counts"), (1725, "long")]),
    ("a graze of 20 ms is nothing", ((100, SHUT), (120, OPEN)), 1000, []),
    (
        "nine seconds are no gesture",
        ((100, SHUT), (9100, OPEN)),
        12000,
        [(125, "press"), (1100, "counts"), (8100, "too long")],
    ),
    (
        "ten seconds are a stuck pedal",
        ((100, SHUT), (15000, OPEN)),
        16000,
        [(125, "press"), (1100, "counts"), (8100, "too long"), (10100, "stuck")],
    ),
    ("both contacts open for long: a wire", ((100, BETWEEN), (600, OPEN)), 1000, [(350, "wire")]),
    (
        "the way between its ends is nothing",
        ((100, BETWEEN), (110, SHUT), (300, BETWEEN), (310, OPEN)),
        900,
        [(135, "press"), (325, "short")],
    ),
)

for name, changes, until_ms, wanted in CASES:
    check(name, run(changes, until_ms), wanted)
    check(name + ", without polling", jumped(changes, until_ms), wanted)

events = run(BOUNCE, 1000)
check("bounce is one press", [name for _, name in events], ["press", "short"])
check(
    "down at switch-on: nothing until a release",
    run(((3000, OPEN), (4000, SHUT), (4200, OPEN)), 5000, False),
    [(4025, "press"), (4225, "short")],
)
check("down at switch-on for ten seconds: stuck", run((), 11000, False), [(10000, "stuck")])


def unwatched(changes, since_ms, until_ms):
    """Nobody looks for a while -> the names of the events up to a second later."""
    foot, names, contacts, changes = g.Gestures(), [], OPEN, list(changes)
    for now_ms in range(until_ms + 1000):
        while changes and changes[0][0] <= now_ms:
            contacts = changes.pop(0)[1]
        if not since_ms < now_ms < until_ms:
            event = foot.feed(now_ms, contacts[0], contacts[1])
            if event != g.NONE:
                names.append(NAMES[event])
    return names


check("a release nobody saw for 170 ms", unwatched(TAP, 299, 470), ["press", "short"])
check("a release nobody saw for 300 ms means nothing", unwatched(TAP, 299, 600), ["press"])
check("nor does a long one", unwatched(LONG, 1699, 2000), ["press", "counts"])
check("nor one that was seen and then left alone", unwatched(TAP, 310, 600), ["press"])
check("the next tap does", unwatched(TAP + ((700, SHUT), (850, OPEN)), 299, 600), ["press", "press", "short"])
check("an old press is still a press", unwatched(TAP[:1], 99, 600), ["press"])
foot = g.Gestures()
foot.feed(0, *OPEN)
foot.feed(10, *SHUT)
foot.feed(35, *SHUT)
check("a foot that is down is looked at again within 100 ms", foot.due_ms() <= 135, True)
foot.feed(60, *BETWEEN)
check("also on its way up", foot.due_ms() <= 160, True)
foot.feed(90, *BETWEEN)
check("all the way", foot.due_ms() <= 190, True)
wet = []
for beat in range(30):
    wet += [(100 + 60 * beat, SHUT), (130 + 60 * beat, OPEN)]
check("wet chatter is told", (0, "wet") in [(0, name) for _, name in run(wet, 3000)], True)
check("touched: a broken rest wire counts as a foot", g.touched(False, False), True)
check("touched: at rest", g.touched(False, True), False)
finish()
