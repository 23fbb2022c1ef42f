"""The books of one light of one sheet: what was planned, what it has really had, what is recorded of it."""

from dataclasses import dataclass, field

SLACK_US = 1000  # a gesture may cost, or a record be off by, so much [us]


@dataclass
class Offer:
    """An intent: so much light is offered for one step of one sheet. `spans_us`: the lamp's since then."""

    sheet: int
    step: int
    light_us: int
    dead_us: int
    life: int
    spans_us: list[int] = field(default_factory=list)
    words: set[str] = field(default_factory=set)  # faults that the display has shown since

    @property
    def had_us(self) -> int:
        """Light since the offer, by the lamp itself [us]."""
        return sum(max(0, span - self.dead_us) for span in self.spans_us)

    @property
    def gate_us(self) -> int:
        """Lamp-on time since the offer [us]."""
        return sum(self.spans_us)


@dataclass
class Portion:
    """One light of one sheet. Times in microseconds.

    had: by the lamp. doubt: how much of that the lamp may have stayed dark for, as a fault told. recorded:
    the least that the journal holds. limit: the plan, or more if a person chose more. is_open: an offer was
    cut off unanswered, so that nobody but the lamp knows what it gave. is_chosen: a person went back since.
    """

    plan_us: int
    had_us: int = 0
    doubt_us: int = 0
    recorded_us: int = 0
    limit_us: int = 0
    lights: int = 0
    is_open: bool = False
    is_finished: bool = False
    is_chosen: bool = False
    earlier_us: int = 0  # what it had before a person chose to begin again
    earlier_doubt_us: int = 0
    all_lights: int = 0

    def __post_init__(self) -> None:
        self.limit_us = self.plan_us

    @property
    def least_us(self) -> int:
        """What it has surely had [us]."""
        return self.had_us - self.doubt_us

    @property
    def all_us(self) -> int:
        """All light that it has had, also before a person chose to begin again [us]."""
        return self.earlier_us + self.had_us

    @property
    def all_doubt_us(self) -> int:
        """How much of that the lamp may have stayed dark for [us]."""
        return self.earlier_doubt_us + self.doubt_us

    @property
    def slack_us(self) -> int:
        """What all its gestures may have cost [us]."""
        return SLACK_US * (self.lights + 1)

    def shine(self, light_us: int) -> None:
        """The lamp has given so much light [us]."""
        self.had_us += light_us
        self.lights += 1
        self.all_lights += 1

    def begin_anew(self, plan_us: int) -> None:
        """A person chose to carry the step out once more."""
        self.earlier_us += self.had_us
        self.earlier_doubt_us += self.doubt_us
        self.plan_us = self.limit_us = plan_us
        self.had_us = self.doubt_us = self.recorded_us = self.lights = 0
        self.is_open = self.is_finished = self.is_chosen = False
