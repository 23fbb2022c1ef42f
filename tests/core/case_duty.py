"""Light in any ten minutes."""

from checking import check, finish

from footlight_core.duty import Duty

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
many = Duty()
for number in range(60):
    many.add(1000 * number, 100)
check("more exposures than are kept still count", many.used_ms(60_000), 6000)
finish()
