"""One print through the API alone: planned, sent to the bench, carried out, collected, shown.

    python docs/one_print.py FOLDER

FOLDER is new or empty; everything in it is invented. A controller on a cable needs no bench:
`footlight.connect()` is its link, and a printer its feet.
"""

import sys
import time
from pathlib import Path

import footlight


def main(folder: Path) -> None:
    book, now_s = folder / "notebook.sqlite", int(time.time())
    folder.mkdir(parents=True, exist_ok=True)
    example = footlight.write_example("reversal-print", folder / "print.toml")
    plan = footlight.plan_sequence(example.file, book, now_s)
    print(*footlight.plan_lines(plan.compiled), sep="\n")
    with footlight.Bench(folder / "bench") as bench:
        bench.switch_on()
        link = footlight.link_to_bench(bench, now_s)
        footlight.keep_and_send(link, plan.compiled, book, now_s)
        feet = footlight.Feet(bench)
        bench.run_for(3000)
        feet.arm(0, is_batch=False)
        feet.carry_out(plan.compiled.program, {2: footlight.Slip(late_ms=12_000)})
        feet.put_away()
        home = footlight.bring_home(footlight.link_to_bench(bench, now_s), book, now_s)
    for number in sorted(home.brought.sheets):
        print(*footlight.sheet_lines(footlight.show_sheet(book, number)), sep="\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
