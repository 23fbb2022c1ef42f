"""For each thing that the sheet ledger holds a story that breaks it, and nothing else."""

from collections.abc import Callable

from tests.judges.story import LIGHT, PROGRAM, Story

Kill = Callable[[], Story]
KILLS: dict[str, tuple[Kill, str]] = {}


def kill(message: str) -> Callable[[Kill], Kill]:
    """A story and what the ledger is to say of it."""

    def keep(story: Kill) -> Kill:
        KILLS[story.__name__] = (story, message)
        return story

    return keep


def at_light() -> Story:
    """A run that has come to its light."""
    return Story().pick(1).show("DEV").tap().bath(1)


# -- light had and planned -----------------------------------------------------------------------------


@kill("has had 4.800 s of light, planned 2.400 s")
def a_second_whole_light() -> Story:
    return at_light().offer().tap().burn(2400).tap().burn(2400)


@kill("has had 2.410 s of light, planned 2.400 s")
def a_light_too_long() -> Story:
    return at_light().offer().tap().burn(2410)


@kill("has had 3.100 s of light, planned 2.400 s")
def a_counted_light_beyond_its_cap() -> Story:
    return at_light().learn().offer().tap().burn(3100)


@kill("planned 2.400 s, and it was not counted")
def a_light_longer_than_planned_and_not_counted() -> Story:
    story = at_light().learn().offer().tap().burn(2700)
    return story.gave(2700, "whole").dose(2700, "level")


@kill("is recorded with 2.400 s, counted were 1.900 s")
def a_record_of_more_than_was_counted() -> Story:
    return at_light().learn().offer().tap().burn(2400).gave(2400, "whole").dose(1900)


@kill("that no record offers")
def a_light_that_nobody_offered() -> Story:
    return at_light().whole().tap().burn(100)


@kill("is offered 2.400 s, and was finished")
def the_whole_light_again_after_a_cut_at_rest() -> Story:
    """As it was seen at caaac8f, but that the record of the cut is left out."""
    return at_light().whole().show("FIX").wait(5000).lose_power().show("CUT").hold().offer()


@kill("was finished, and is taken for broken off")
def a_light_given_whole_comes_back() -> Story:
    """As it was seen: cut step 2, least 0, most 0."""
    return at_light().whole().show("FIX").wait(5000).cut(LIGHT)


@kill("was finished, and is taken for broken off")
def an_abandoned_light_comes_back() -> Story:
    story = at_light().offer().tap().burn(1000).gave(1000, "held").offer(1400).hold()
    return story.gave(0, "abandoned").show("FIX").cut(LIGHT, 1000, 2400)


@kill("recorded are 0.268 s, planned 0.700 s")
def the_plan_once_more_after_a_cut_while_held() -> Story:
    steps = [PROGRAM["steps"][0], PROGRAM["steps"][1] | {"time_ms": 700}, PROGRAM["steps"][2]]
    story = Story(PROGRAM | {"steps": steps}).pick(1).tap().bath(1).offer(700).tap()
    story.burn(268).gave(268, "held").offer(432).show("OFF 0.4")
    return story.cut(LIGHT, 268, 700).show("CUT", "STEP2", "LIGHT", "0.2-0.7").hold().offer(700)


@kill("recorded are 0.700 s, planned 2.400 s")
def the_plan_once_more_after_a_watchdog() -> Story:
    story = at_light().offer().tap().burn(1200)
    return story.cut(LIGHT, 700, 2400).show("CUT", "STEP2", "LIGHT", "0.7-2.4").hold().offer(2400)


@kill("is offered 2.500 s; recorded are 0.000 s, planned 2.400 s")
def an_offer_too_large() -> Story:
    return at_light().offer(2500)


@kill("is offered 1.500 s after 1.200 s, planned 2.400 s")
def more_than_is_left_by_the_lamp() -> Story:
    """The record says too little, within what it may say, and then the lamp counts."""
    story = at_light().offer().tap().burn(1200).gave(0, "held", gate_ms=1250)
    return story.offer(1500)


@kill("is offered 2.400 s; recorded are 1.000 s, planned 2.400 s")
def a_menu_that_a_fault_ends() -> Story:
    """The release that turned to `BACK?` has not chosen it."""
    story = at_light().offer().tap().burn(1000).gave(1000, "held").offer(1400).show("STAY?").tap()
    story.happen("frame", "BACK?")
    return story.wait(300).record("fault", code=12).show("STRAY").hold().offer()


@kill("is offered again before its last light is recorded")
def a_light_that_is_not_recorded() -> Story:
    return at_light().offer().tap().burn(1000).offer(1400)


@kill("light is offered for step 1, which is none")
def light_for_a_bath() -> Story:
    return Story().pick(1).offer(step=1)


@kill("is offered 2.400 s after 1.200 s, planned 2.400 s")
def the_most_that_nobody_chose() -> Story:
    story = at_light().offer().tap().burn(1200).cut(LIGHT, 0, 2400).show("CUT", "STEP2", "LIGHT", "0.0-2.4")
    return story.hold().show("NONE").hold().offer(2400)


@kill("is offered 2.200 s after 1.200 s, planned 2.400 s")
def more_than_is_surely_missing() -> Story:
    story = at_light().offer().tap().burn(1200).cut(LIGHT, 200, 2400).show("CUT", "STEP2", "LIGHT", "0.2-2.4")
    return story.hold().show("MIN 2.2").hold().offer(2200)


# -- what is said --------------------------------------------------------------------------------------


@kill("is recorded held with 1.000 s, and has had 1.200 s")
def a_record_that_says_less() -> Story:
    return at_light().offer().tap().burn(1200).gave(1000, "held").show("OFF 1.4", "OFF 1.4")


@kill("is recorded held with 1.300 s, and has had 1.200 s")
def a_record_that_says_more() -> Story:
    return at_light().offer().tap().burn(1200).gave(1300, "held").show("OFF 1.1", "OFF 1.1")


@kill("is recorded whole after 0.000 s")
def a_dark_light_recorded_whole() -> Story:
    """The gate is high, the pump is not: the coil has nothing."""
    story = at_light().offer().tap().burn(2400, pump=False)
    return story.gave(0, "whole", gate_ms=0).show("FIX", "FIX")


@kill("that was not offered")
def a_record_of_another_step() -> Story:
    return at_light().offer().tap().burn(2400).gave(2400, "whole", sheet=2)


@kill("is told to have had 0-0 ms of light, and has had 1.200 s")
def a_cut_that_forgets() -> Story:
    story = at_light().offer().tap().burn(1200).gave(1200, "held").offer(1200)
    return story.cut(LIGHT, 0, 0).show("CUT", "STEP2", "LIGHT")


@kill("is told to have had 2000-2400 ms of light, and has had 1.200 s")
def a_cut_that_boasts() -> Story:
    return at_light().offer().tap().burn(1200).cut(LIGHT, 2000, 2400).show("CUT", "STEP2", "LIGHT")


@kill("the display tells 0.0 to 0.9 s, 1.200 s were had")
def a_display_that_forgets() -> Story:
    story = at_light().offer().tap().burn(1200).cut(LIGHT, 0, 2400)
    return story.show("CUT", "STEP2", "LIGHT", "0.0-0.9", "0:05")


@kill("the display comes round without a word of 1.200 s of light")
def a_display_that_is_silent() -> Story:
    story = at_light().offer().tap().burn(1200).cut(LIGHT, 0, 2400)
    return story.show("CUT", "STEP2", "LIGHT", "0:05", "CUT")


@kill("the display tells 0.2 to 0.5 s, 1.200 s were had")
def a_ready_page_that_forgets() -> Story:
    story = at_light().offer().tap().burn(1200).cut(LIGHT, 0, 2400).hold().show("MAX 2.4").hold().offer(2400)
    return story.show("HAD", "0.2-0.5", "BLACKS", "BLACKS")


@kill("the display offers 1.9 s, the journal 1.200 s")
def a_display_that_offers_more() -> Story:
    return at_light().offer().tap().burn(1200).gave(1200, "held").offer(1200).show("OFF 1.9")


@kill("the display offers 24.0 s, the journal 2.400 s")
def a_display_that_offers_another_light() -> Story:
    return at_light().offer().show("BLACKS", "24.0S")


@kill("the link tells record 4 otherwise than it was written")
def a_link_that_tells_another_record() -> Story:
    story = at_light().offer()
    story.reply(story.records[3] | {"light_ms": 1})
    return story


@kill("is said to have had 0 to 0 ms, had 2400 ms")
def a_page_that_forgets() -> Story:
    story = at_light().whole()
    row = {"light": True, "step": LIGHT, "least_ms": 0, "most_ms": 0}
    story.ledger.hold({"sheet": 1, "runs": [{"rows": [row]}]})
    return story


# -- numbers -------------------------------------------------------------------------------------------


@kill("number 1 is given a second time")
def a_number_given_twice() -> Story:
    return at_light().whole().record("end", how="whole").show("DONE", "NR 1", "DONE").hold().arm(1, run=2)


@kill("number 1 is offered as a new one")
def a_number_offered_twice() -> Story:
    return at_light().whole().record("end", how="whole").show("DONE").lose_power().pick(1)


@kill("number 2 is given a second time, in a batch")
def a_number_given_twice_in_a_batch() -> Story:
    story = Story().pick(1).tap().bath(1).record("end", how="left")
    story.show("PRINT").hold().arm(2, run=2).record("end", how="left", run=2)
    return story.hold().arm(3, sheets=3, run=3).tap().bath(1, sheet=3).record("begin", step=1, sheet=2)


@kill("the display says number 7, the journal 1")
def a_display_with_another_number() -> Story:
    return Story().show("PRINT").hold().show("NR 1").hold().arm(1).show("PENCIL", "7")


# -- steps ---------------------------------------------------------------------------------------------


@kill("step 1 of sheet 1 was finished, and is taken for broken off")
def a_bath_comes_back() -> Story:
    return at_light().offer().show("BLACKS", "2.4S").cut(1)


@kill("step 3 stood on the display, at rest, and the run is back at 2")
def a_display_that_goes_back() -> Story:
    """The journal lost the end of the light, of which the display had told."""
    story = at_light().offer().tap().burn(2400).show("FIX").wait(3000)
    return story.cut(LIGHT, 0, 2400).show("CUT", "STEP2")


@kill("step 1 of sheet 1 was finished, and begins again")
def a_bath_begins_again() -> Story:
    return at_light().record("begin", step=1)


@kill("is gone back to by nobody")
def a_move_by_nobody() -> Story:
    return at_light().show("BLACKS").record("move", step=1)


@kill("run 1 had ended, and is taken for broken off")
def a_run_that_ended_comes_back() -> Story:
    return at_light().whole().record("end", how="left").show("PRINT").cut(3)


@kill("the display is back at step 3, the journal at step 2")
def a_display_at_another_step() -> Story:
    return at_light().offer().tap().burn(1200).cut(LIGHT, 0, 2400).show("CUT", "STEP3")
