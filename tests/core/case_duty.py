"""Light in any ten minutes."""

from checking import check, finish

from footlight_core.duty import Duty, Past

duty = Duty()
check("a cold lamp", duty.wait_ms(0, 5000, 5000), 0)
duty.add(10_000, 4000)
check(
    "what it has had", (duty.used_ms(10_000), duty.used_ms(609_999), duty.used_ms(610_000)), (4000, 4000, 0)
)
check("a little more fits", duty.wait_ms(20_000, 1000, 5000), 0)
check("more must wait", duty.wait_ms(20_000, 2000, 5000), 590_000)
duty.add(30_000, 1000)
check("the oldest goes first", duty.wait_ms(40_000, 4000, 5000), 570_000)
check("both must go", duty.wait_ms(40_000, 5000, 5000), 590_000)
check("one millisecond too much must wait, too", duty.wait_ms(20_000, 1001, 5000), 590_000)
late = Duty()
late.add(10_000, 4000)
late.add(300_000, 1000)
check("what has passed frees nothing", late.wait_ms(620_000, 5000, 5000), 280_000)
check("nor what passes now", late.wait_ms(610_000, 5000, 5000), 290_000)
check("a millisecond before, it does", late.wait_ms(609_999, 4000, 5000), 1)
# 48 lights are kept: the 49th counts with the first, for as long as it counts itself.
kept = Duty()
for number in range(48):
    kept.add(1000 * number, 100)
check("48 lights, each for its ten minutes", kept.used_ms(600_000), 4700)
kept.add(48_000, 100)
check("the 49th keeps the first", kept.used_ms(600_000), 4900)
for end_ms, wanted in ((600_999, 4900), (601_000, 4800)):
    full = Duty()
    for _ in range(48):
        full.add(1000, 100)
    full.add(end_ms, 100)
    check("not one that has passed at %d ms" % end_ms, full.used_ms(600_999), wanted)
many = Duty()
for number in range(60):
    many.add(1000 * number, 100)
check("more exposures than are kept still count", many.used_ms(60_000), 6000)


def recalled(*records):
    """What a start at time 0 knows of these records: light used now, after five and after ten minutes."""
    duty = Duty()
    past = Past(duty)
    for kind, t_ms, gate_ms in records:
        past.feed({"k": kind, "t": t_ms, "gate_ms": gate_ms})
    past.end()
    return duty.used_ms(0), duty.used_ms(300_000), duty.used_ms(600_000)


BOOT = ("boot", 1000, 0)
INTENT = ("intent", 5000, 30_000)
check("no records", recalled(), (0, 0, 0))
check("a light of the last start", recalled(BOOT, INTENT, ("gave", 40_000, 30_000)), (30_000, 30_000, 0))
check(
    "time that passed with the power on counts",
    recalled(BOOT, INTENT, ("gave", 40_000, 30_000), ("step", 340_001, 0)),
    (30_000, 0, 0),
)
check(
    "no time is known to have passed with the power off",
    recalled(BOOT, INTENT, ("gave", 40_000, 30_000), BOOT, BOOT, BOOT),
    (30_000, 30_000, 0),
)
check(
    "an end that was never written: whole, up to the next start", recalled(BOOT, INTENT), (30_000, 30_000, 0)
)
check(
    "in an earlier start too",
    recalled(BOOT, INTENT, BOOT, ("cut", 1100, 0), ("step", 301_000, 0)),
    (30_000, 0, 0),
)
check("an intent that gave nothing", recalled(BOOT, INTENT, ("gave", 9000, 0)), (0, 0, 0))
check(
    "the set-up light",
    recalled(BOOT, ("intent", 5000, 120_000), ("focus", 65_000, 60_000)),
    (60_000, 60_000, 0),
)
check("an intent after one that nothing answered", recalled(BOOT, INTENT, INTENT), (60_000, 60_000, 0))
LIT = (BOOT, INTENT, ("gave", 40_000, 30_000))
check("the oldest records are gone, the start too", recalled(*LIT[1:]), (30_000, 30_000, 0))
check(
    "time is not counted twice",
    recalled(*LIT, ("step", 100_000, 0), ("step", 200_000, 0), ("step", 300_000, 0)),
    (30_000, 30_000, 0),
)
check(
    "records of one moment",
    recalled(*LIT, ("step", 339_999, 0), ("step", 339_999, 0)),
    (30_000, 30_000, 0),
)
check(
    "a time that goes back takes none away",
    recalled(*LIT, ("step", 340_000, 0), ("step", 339_999, 0)),
    (30_000, 0, 0),
)
for ms, wanted in ((299_999, 30_000), (300_000, 0)):
    check("%d ms of the next start" % ms, recalled(*LIT, BOOT, ("step", ms, 0)), (30_000, wanted, 0))
check("a fault answers no intent", recalled(BOOT, INTENT, ("fault", 6000, 0)), (30_000, 30_000, 0))
check(
    "what gave nothing takes no place",
    recalled(*LIT, *[("gave", 340_001, 0) for _ in range(48)]),
    (30_000, 0, 0),
)
check(
    "older than ten minutes",
    recalled(BOOT, INTENT, ("gave", 40_000, 30_000), ("end", 640_001, 0)),
    (0, 0, 0),
)
finish()
