"""`make soak`: every campaign for long. `python -m tests.soak [NAME [SEED]]`: one campaign, or one seed.

Each seed that is done is a line of build/soak/NAME.jsonl; a campaign that was stopped goes on where it ended.
"""

import importlib.util
import json
import sys
from collections import Counter
from collections.abc import Callable
from multiprocessing import Pool
from pathlib import Path

from tests.soak import (
    bits,
    books,
    chips,
    heaps,
    lights,
    lines,
    lit_faults,
    mutants,
    pedals,
    rest,
    rooms,
    strips,
)

Campaign = Callable[[int], bits.Outcome]
FOLDER = Path("build/soak")
# name -> (campaign, seeds in a soak)
CAMPAIGNS: dict[str, tuple[Campaign, int]] = {
    "frames-to-controller": (bits.frames_to_controller, 5_000),
    "frames-to-host": (bits.frames_to_host, 5_000),
    "pedals": (pedals.pedals, 5_000),
    "programs": (bits.hostile_programs, 2_000),
    "uploads": (bits.broken_uploads, 500),
    "notebook": (books.killed, 200),
    "rest": (rest.cuts, 2_000),
    "lines": (lines.exceptions, lines.SEEDS),
    "mutants": (mutants.campaign, mutants.SEEDS),
    "faults": (rooms.faults, 10_000),
    "heap": (heaps.sizes, len(heaps.SIZES_KIB)),
    "lights": (lights.campaign, 125),
    "lit-faults": (lit_faults.lit_faults, 2_000),
    "chip": (chips.mishaps, 200),
    "spoilt-strips": (strips.spoilt_scans, 300),
}
PAPERS = 1_000


def one(job: tuple[str, int]) -> dict[str, object]:
    """One seed of a campaign, as the line that is kept."""
    name, seed = job
    trials, breaches, counts = CAMPAIGNS[name][0](seed)
    return {"seed": seed, "trials": trials, "breaches": breaches, "counts": dict(counts)}


def go_on(name: str, pool) -> int:
    """All seeds of a campaign that are not done yet -> how many breaches there are."""
    path = FOLDER / f"{name}.jsonl"
    path.parent.mkdir(parents=True, exist_ok=True)
    done = {json.loads(line)["seed"] for line in path.read_text().splitlines()} if path.exists() else set()
    jobs = [(name, seed) for seed in range(CAMPAIGNS[name][1]) if seed not in done]
    with path.open("a") as file:
        for row in pool.imap_unordered(one, jobs):
            print(json.dumps(row), file=file, flush=True)
            for breach in row["breaches"]:
                print(f"{name}: {breach}", flush=True)
    return tell(name, path)


def tell(name: str, path: Path) -> int:
    """The summary of what is kept."""
    rows = [json.loads(line) for line in path.read_text().splitlines()]
    counts = sum((Counter(row["counts"]) for row in rows), Counter())
    breaches = sum(len(row["breaches"]) for row in rows)
    trials = sum(row["trials"] for row in rows)
    also = ", ".join(f"{count} {what}" for what, count in sorted(counts.items()))
    print(f"{name}: seeds 0 to {len(rows) - 1}, {trials} trials, {breaches} breaches; {also}", flush=True)
    return breaches


def main(words: list[str]) -> int:
    """Exit code: 1 when anything was broken."""
    names = list(words[:1] or CAMPAIGNS)
    if "chip" in names and chips.MISSING:
        names.remove("chip")
        print(f"chip: SKIPPED; {chips.MISSING}", flush=True)
    if names and len(words) == 2:
        row = one((words[0], int(words[1])))
        print(json.dumps(row, indent=1))
        return 1 if row["breaches"] else 0
    with Pool(2) as pool:
        broken = sum(go_on(name, pool) for name in names)
    if not words and importlib.util.find_spec("tests.soak.papers"):
        papers = importlib.import_module("tests.soak.papers")
        print("papers:", json.dumps(papers.run(PAPERS, 1)))
        broken += strips.run()
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
