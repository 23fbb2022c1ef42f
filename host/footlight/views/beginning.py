"""A first set-up in words: what each stage is, and why it is wanted."""

from dataclasses import dataclass

from footlight.actions.see_beginning import Part, Stage

_WORDS: dict[Part, tuple[str, str]] = {
    "sequence": (
        "A sequence to start from",
        "trays, tongs and steps of one that comes along, to be arranged as you work",
    ),
    "setups": (
        "Your lamp, lens and heights",
        "the shipped ones are invented: write down your own, and the exposure found good, if you have one",
    ),
    "paper": ("Your paper", "a box, its size and how many sheets: what is used is then counted by itself"),
    "baths": ("Your baths", "what was mixed and how much: how long it lasts is told before it fails"),
    "lens": ("Your camera's lenses", "for exposures in the camera; leave it out where you only print"),
    "strip": (
        "The second exposure, from a strip",
        "run the strip, scan it dry, accept what it says: from then on every height and stop follows",
    ),
}


@dataclass(frozen=True)
class ToldStage:
    """A stage in words."""

    part: Part
    title: str
    why: str
    is_done: bool
    trouble: str


def told(stages: tuple[Stage, ...]) -> list[ToldStage]:
    """Each stage in words, in order."""
    return [ToldStage(stage.part, *_WORDS[stage.part], stage.is_done, stage.trouble) for stage in stages]
