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
    counted_us: int | None = None  # light by the sensor, where it was counted

    @property
    def had_us(self) -> int:
        """Light since the offer, by the lamp itself or as it was counted [us]."""
        if self.counted_us is not None:
            return self.counted_us
        return sum(max(0, span - self.dead_us) for span in self.spans_us)

    @property
    def gate_us(self) -> int:
        """Lamp-on time since the offer [us]."""
        return sum(self.spans_us)


@dataclass
class Portion:
    """One light of one sheet. Times in microseconds.

    had: by the lamp, since a person last chose to begin it anew. doubt: how much of that the lamp may have
    stayed dark for, as a fault told. recorded: the least that the journal holds. limit: the plan, or more if
    a person chose more. is_open: an offer was cut off unanswered, so that only the lamp knows what it gave.
    is_chosen: a person went back since. may_exceed: of a light that was cut off a person chose the most that
    may be missing. earlier: in this run, but before that choice; past: in the runs before.
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
    may_exceed: bool = False
    earlier_us: int = 0
    earlier_doubt_us: int = 0
    past_us: int = 0
    past_doubt_us: int = 0
    all_lights: int = 0

    def __post_init__(self) -> None:
        self.limit_us = self.plan_us

    @property
    def least_us(self) -> int:
        """What it has surely had, since it was begun [us]."""
        return self.had_us - self.doubt_us

    @property
    def run_us(self) -> tuple[int, int]:
        """What it has had in this run, at least and at most [us]."""
        most_us = self.earlier_us + self.had_us
        return most_us - self.earlier_doubt_us - self.doubt_us, most_us

    @property
    def all_us(self) -> tuple[int, int]:
        """What it has had in all runs, at least and at most [us]."""
        least_us, most_us = self.run_us
        return least_us + self.past_us - self.past_doubt_us, most_us + self.past_us

    @property
    def slack_us(self) -> int:
        """What all its gestures may have cost [us]."""
        return SLACK_US * (self.lights + 1)

    @property
    def all_slack_us(self) -> int:
        """The same, of all that it has ever had [us]."""
        return SLACK_US * (self.all_lights + 1)

    def shine(self, light_us: int) -> None:
        """The lamp has given so much light [us]."""
        self.had_us += light_us
        self.lights += 1
        self.all_lights += 1

    def is_told(self, least_us: float, most_us: float) -> bool:
        """Do these bounds hold what it has had in this run? [us]"""
        sure_us, had_us = self.run_us
        return least_us <= had_us + self.all_slack_us and most_us >= sure_us - self.all_slack_us

    def take_least(self, least_us: int) -> None:
        """The journal holds that it has had so much at least in this run [us]."""
        self.recorded_us = max(self.recorded_us, min(least_us - self.earlier_us, self.had_us))

    def begin_anew(self, plan_us: int) -> None:
        """A person chose to carry the step out once more."""
        self.earlier_us += self.had_us
        self.earlier_doubt_us += self.doubt_us
        self.plan_us = self.limit_us = plan_us
        self.had_us = self.doubt_us = self.recorded_us = self.lights = 0
        self.is_open = self.is_finished = self.is_chosen = self.may_exceed = False

    def begin_run(self) -> None:
        """A person took the sheet once more."""
        self.begin_anew(self.plan_us)
        self.past_us += self.earlier_us
        self.past_doubt_us += self.earlier_doubt_us
        self.earlier_us = self.earlier_doubt_us = 0
        self.is_chosen = True
