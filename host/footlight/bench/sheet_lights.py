"""Rule I17, for light: had <= planned; had + offered <= planned; what is said holds what was had."""

from collections.abc import Callable
from typing import Any

from footlight.bench.portion import SLACK_US, Offer, Portion

Breach = Callable[[str, str], None]
Suspect = Callable[[str, tuple[str, ...]], None]
Record = dict[str, Any]
Key = tuple[int, int]

_OVER = ("whole", "short", "abandoned", "skipped")
_OUTWARDS_MS = 1
# A counted light: at most a third of a stop longer than planned; whole where so little is missing.
_LONGER = 1.26
_WHOLE_US, _WHOLE_SHARE = 5_000, 0.01
_MOST_LEVEL = 1.75  # of the learnt level: beyond it nothing is counted
_COUNTED = ("counted", "saturated", "stuck", "lost")


class SheetLights:
    """The lights of every sheet. `breach` stops the bench; `suspect` does so too, unless the display shows a
    fault in the next moments that explains it."""

    def __init__(self, breach: Breach, suspect: Suspect) -> None:
        self._breach = breach
        self._suspect = suspect
        self.portions: dict[Key, Portion] = {}
        self.offer: Offer | None = None
        self._answered: Offer | None = None
        self._cut: Record | None = None  # what the journal says of the broken step, since the start
        self._told_bounds = False  # has the display told them since the start?
        self.may_count = False  # has a lamp's level been learnt?
        self._excess = ""  # more seconds than planned, which only a counted light may have

    # -- what happens ------------------------------------------------------------------------------

    def go_back(self, sheet: int) -> None:
        """A person at the pedal chose to go back, or to begin again."""
        for (number, _), portion in self.portions.items():
            portion.is_chosen |= number == sheet

    def begin_run(self, sheet: int) -> None:
        """A run begins with this sheet."""
        for (number, _), portion in self.portions.items():
            if number == sheet:
                portion.begin_run()

    def choose_most(self) -> None:
        """After a cut a person chose `MAX`."""
        portion = self._cut_portion()
        if portion:
            portion.may_exceed = True

    def forget(self) -> None:
        """The memory was formatted: the next sheets are others."""
        self.portions.clear()
        self.offer = self._answered = self._cut = None

    def start_anew(self) -> None:
        """The firmware has been started: an offer that was not answered is open, whatever it gave."""
        if self.offer and self.offer.sheet:
            self.portions[self.offer.sheet, self.offer.step].is_open = True
        self.offer = self._answered = self._cut = None
        self._told_bounds = False
        self._excess = ""

    def shine(self, span_us: int) -> None:
        """The lamp has burnt for so long [us]."""
        offer = self.offer
        if offer is None:
            self._breach("I17", f"a light of {span_us / 1e6:.3f} s that no record offers")
            return
        offer.spans_us.append(span_us)
        if not offer.sheet:
            return
        portion = self.portions[offer.sheet, offer.step]
        portion.shine(max(0, span_us - offer.dead_us))
        if portion.least_us > portion.limit_us + portion.slack_us:
            had, limit = portion.had_us / 1e6, portion.limit_us / 1e6
            excess = f"{_name(offer)} has had {had:.3f} s of light, planned {limit:.3f} s"
            longest_us = offer.light_us * _LONGER if self.may_count else 0
            if span_us - offer.dead_us > longest_us + SLACK_US:
                self._breach("I17", excess)
            self._excess = excess

    def measure(self, record: Record, measure: Record) -> None:
        """A light's record and how it was measured: of a counted one its light is what was counted."""
        offer = self.offer
        if offer is None or measure["how"] not in _COUNTED:
            return
        said_us, dose_us = record["light_ms"] * 1000, measure["dose_ms"] * 1000
        is_whole = abs(offer.light_us - dose_us) <= max(_WHOLE_US, offer.light_us * _WHOLE_SHARE)
        counted_us = offer.light_us if is_whole else dose_us
        if abs(said_us - counted_us) > SLACK_US:
            what = f"{_name(offer)} is recorded with {said_us / 1e6:.3f} s"
            self._breach("I17", f"{what}, counted were {counted_us / 1e6:.3f} s")
        portion = self.portions[offer.sheet, offer.step]
        portion.had_us += counted_us - offer.had_us
        offer.counted_us = counted_us
        self._excess = ""

    def show_fault(self, word: str) -> None:
        """The display shows a fault: with NOLAMP the last light may have been dark."""
        for offer in {id(offer): offer for offer in (self.offer, self._answered) if offer}.values():
            if word == "NOLAMP" and word not in offer.words and offer.sheet:
                self.portions[offer.sheet, offer.step].doubt_us += offer.had_us
            offer.words.add(word)

    # -- what the journal says ---------------------------------------------------------------------

    def intend(self, record: Record, plan_ms: int | None, dead_ms: int, life: int) -> None:
        """An intent: light is offered. `plan_ms`, `dead_ms`: of its step."""
        light_us = record["light_ms"] * 1000
        offer = Offer(record["sheet"], record["step"], light_us, dead_ms * 1000, life)
        before, self.offer, self._answered = self.offer, offer, None
        if not offer.sheet:
            return
        plan_us = light_us if plan_ms is None else plan_ms * 1000
        portion = self.portions.setdefault((offer.sheet, offer.step), Portion(plan_us))
        if portion.is_chosen:
            portion.begin_anew(plan_us)
        if before and before.spans_us and (before.sheet, before.step) == (offer.sheet, offer.step):
            self._breach("I17", f"{_name(offer)} is offered again before its last light is recorded")
        self._judge_offer(offer, portion)
        self._cut = None

    def _judge_offer(self, offer: Offer, portion: Portion) -> None:
        what = f"{_name(offer)} is offered {offer.light_us / 1e6:.3f} s"
        plan = f"planned {portion.plan_us / 1e6:.3f} s"
        if portion.is_finished:
            self._breach("I17", f"{what}, and was finished")
        if portion.recorded_us + offer.light_us > portion.plan_us + portion.slack_us:
            self._breach("I17", f"{what}; recorded are {portion.recorded_us / 1e6:.3f} s, {plan}")
        total_us = portion.least_us + offer.light_us
        if total_us <= portion.limit_us + portion.slack_us:
            return
        # What the lamp gave in an offer that was cut off, the controller cannot know: a person who has been
        # told the bounds may choose the most that may be missing.
        if not (portion.is_open and portion.may_exceed):
            self._breach("I17", f"{what} after {portion.least_us / 1e6:.3f} s, {plan}")
        portion.limit_us = max(portion.limit_us, portion.had_us + offer.light_us)
        portion.may_exceed = False

    def answer(self, record: Record) -> str | None:
        """A light is recorded -> 'over' if nothing more is to come of it, None if it is not."""
        offer, key = self.offer, (record["sheet"], record["step"])
        if offer is None or (offer.sheet, offer.step) != key:
            self._breach("I17", f"a light of sheet {key[0]}, step {key[1]}, is recorded that was not offered")
            return None
        if self._excess:
            self._breach("I22", f"{self._excess}, and it was not counted")
        self._answered, self.offer = offer, None
        portion = self.portions[key]
        self._judge_answer(offer, portion, record)
        portion.recorded_us += min(offer.had_us, record["light_ms"] * 1000)
        portion.is_finished = record["how"] in _OVER
        return "over" if portion.is_finished else None

    def _judge_answer(self, offer: Offer, portion: Portion, record: Record) -> None:
        said_us, had_us, how = record["light_ms"] * 1000, offer.had_us, record["how"]
        said, had = f"{said_us / 1e6:.3f} s", f"{had_us / 1e6:.3f} s"
        what = f"{_name(offer)} is recorded {how} with {said}, and has had {had}"
        off_us = max(abs(said_us - had_us), abs(record["gate_ms"] * 1000 - offer.gate_us))
        if off_us > SLACK_US:
            self._explain(offer, what, "NOLAMP" if said_us <= had_us else "GATE")
        if how == "whole" and portion.had_us < portion.plan_us - portion.slack_us:
            whole = f"{_name(offer)} is recorded whole after {portion.had_us / 1e6:.3f} s"
            self._explain(offer, f"{whole}, planned {portion.plan_us / 1e6:.3f} s", "GATE")

    def _explain(self, offer: Offer, what: str, word: str) -> None:
        if word not in offer.words:
            self._suspect(what, (word,))

    def come_back(self, record: Record) -> None:
        """After a start the journal gives the bounds of the light that was broken off."""
        self._cut = record
        self.offer = None
        portion = self.portions.get((record["sheet"], record["step"]))
        least_us, most_us = record["least_ms"] * 1000, record["most_ms"] * 1000
        portion = portion or Portion(0)
        scale = self._scale()
        if not portion.is_told(least_us / scale, most_us * scale):
            told = f"{record['least_ms']}-{record['most_ms']} ms"
            what = f"step {record['step']} of sheet {record['sheet']} is told to have had {told} of light"
            self._suspect(f"{what}, and has had {portion.run_us[1] / 1e6:.3f} s", ("LOST",))
        portion.take_least(least_us)

    def hold(self, sheet: int, least_ms: dict[int, int], most_ms: dict[int, int]) -> None:
        """What a command says of the light of each step of a sheet, all its runs together [ms]."""
        for (number, step), portion in self.portions.items():
            if number != sheet or step not in least_ms:
                continue
            sure_us, had_us = portion.all_us
            had_ms, slack_ms = had_us / 1000, portion.all_slack_us / 1000
            if least_ms[step] > had_ms + slack_ms or most_ms[step] < sure_us / 1000 - slack_ms:
                told = f"is said to have had {least_ms[step]} to {most_ms[step]} ms, had {had_ms:.0f} ms"
                self._breach("I17", f"step {step} of sheet {sheet} {told}")

    # -- what the display says ---------------------------------------------------------------------

    def show_offer(self, ms: float, step_ms: float) -> None:
        """A page offers so much light, rounded to `step_ms` [ms]."""
        offer = self.offer
        if offer and offer.sheet and abs(ms - offer.light_us / 1000) > step_ms + _OUTWARDS_MS:
            intended = f"the journal {offer.light_us / 1e6:.3f} s of {_name(offer)}"
            self._breach("I17", f"the display offers {ms / 1000} s, {intended}")

    def show_bounds(self, least_ms: float, most_ms: float) -> None:
        """A page tells how much light the step has had that was broken off, or that is ready."""
        self._told_bounds = True
        offer = self.offer
        portion = self.portions.get((offer.sheet, offer.step)) if offer else self._cut_portion()
        if portion is None:
            return
        scale = self._scale()
        if not portion.is_told(least_ms * 1000 / scale, most_ms * 1000 * scale):
            had = f"{portion.run_us[1] / 1e6:.3f} s were had"
            self._suspect(f"the display tells {least_ms / 1000} to {most_ms / 1000} s, {had}", ("LOST",))

    def _scale(self) -> float:
        """What a light that was cut off was counted as, against its seconds, which alone are seen of it."""
        return _MOST_LEVEL if self.may_count else 1.0

    def come_round(self) -> None:
        """After a cut the pages have come round: of a light they must have told what was had of it."""
        portion = self._cut_portion()
        if portion and portion.least_us > portion.slack_us and not self._told_bounds:
            had = f"{portion.least_us / 1e6:.3f} s of light"
            self._breach("I17", f"the display comes round without a word of {had}")

    def _cut_portion(self) -> Portion | None:
        return self.portions.get((self._cut["sheet"], self._cut["step"])) if self._cut else None


def _name(offer: Offer) -> str:
    return f"step {offer.step} of sheet {offer.sheet}"
