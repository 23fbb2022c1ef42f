"""The planted bugs: each a small fault that someone might make, and that some check must catch."""

from dataclasses import dataclass

APP = "controller/app.py"
LAMP = "controller/lamp.py"
GUARD = "controller/guard.py"
JOURNAL = "controller/journal.py"
STORE = "controller/store.py"
FILES = "controller/files.py"
SIGHT = "controller/sight.py"
BOOT = "controller/boot_run.py"
ACTIONS = "footlight_core/actions.py"
ENTRIES = "footlight_core/entries.py"
GESTURES = "footlight_core/gestures.py"
WHEN = "footlight_core/guards.py"
PROGRAM = "footlight_core/program.py"
RUN = "footlight_core/run.py"
SEQUENCER = "footlight_core/sequencer.py"
SESSION = "footlight_core/session.py"
TABLE = "footlight_core/table.py"
WIRE = "footlight_core/wire.py"
RECOVERY = "footlight_core/recovery.py"
DUTY = "footlight_core/duty.py"
DOSE = "footlight_core/dose.py"
SENSOR = "footlight_core/sensor.py"
METER = "controller/meter.py"


@dataclass(frozen=True)
class Bug:
    """`old` stands exactly once in `file`; `new` takes its place."""

    what: str
    file: str
    old: str
    new: str


# The bench has no timers of the chip: its own agenda stands for one.
FED_BY_TIMER = """self._dog = machine.WDT(timeout=TIMEOUT_MS)
        import world

        def feed(_):
            self._dog.feed()
            world.world.after(1_000_000, feed)

        feed(None)"""

BUGS = (
    # -- the lamp ----------------------------------------------------------------------------------
    Bug("lamp goes off late", LAMP, "self._ticks = gate_ms * TICKS_PER_MS", "self._ticks = gate_ms * 101"),
    Bug("lamp goes off early", LAMP, "self._ticks = gate_ms * TICKS_PER_MS", "self._ticks = gate_ms * 99"),
    Bug("a stop does not reach the gate", LAMP, "            self._sm.put(1)", "            pass"),
    Bug("a remainder is misread by a tick's worth", LAMP, "self._ticks - left +", "left +"),
    Bug(
        "the gate's polarity is turned round",
        LAMP,
        "self._pin(self._gate, self._pin.OUT, value=0)\n        self._pin(self._pump",
        "self._pin(self._gate, self._pin.OUT, value=1)\n        self._pin(self._pump",
    ),
    Bug("boot.py lights the gate", "boot.py", "value=0)", "value=1)"),
    Bug(
        "a message lights the lamp",
        APP,
        "        reply = self._session.handle(line)",
        '        if b"limits" in line:\n            self._light(500, now_ms)\n'
        "        reply = self._session.handle(line)",
    ),
    Bug(
        "the keyboard interrupt stays on in a run",
        "main.py",
        "keyboard.set_interrupt(False)",
        "keyboard.set_interrupt(True)",
    ),
    Bug(
        "the program ends at a single Ctrl-C",
        "controller/keyboard.py",
        "return place == _ONCE or place == _TWICE",
        "pass\n        if byte == _CTRL_C:\n            return True",
    ),
    Bug("the watchdog is never started", APP, "        self._guard.start()\n", ""),
    Bug(
        "the watchdog is fed from a timer",
        GUARD,
        "self._dog = machine.WDT(timeout=TIMEOUT_MS)",
        FED_BY_TIMER,
    ),
    Bug(
        "a silent task is not missed",
        GUARD,
        "            if not self._reported[task]:",
        "            if False:",
    ),
    Bug("the watchdog bites too late", GUARD, "TIMEOUT_MS = 4500", "TIMEOUT_MS = 8300"),
    Bug(
        "how long a light has burnt is not noted",
        APP,
        "self.seq.run.burnt_ms(now_ms - self._lit_ms) // _MS_NOTED + 1",
        "0",
    ),
    # -- light that is counted ---------------------------------------------------------------------
    Bug("the prediction is ignored", METER, "        self._lamp.end_in(max(0, left))\n", ""),
    Bug(
        "what the filter owes is forgotten",
        DOSE,
        "self._ticks_had + TAU_TICKS * self._level //",
        "self._ticks_had + 0 //",
    ),
    Bug(
        "what comes after the gate is forgotten",
        DOSE,
        "self._counted() - self._tail(level))",
        "self._counted())",
    ),
    Bug(
        "the dark counts as light",
        DOSE,
        "self._corrected(max(0, reading - self._dark))",
        "self._corrected(reading)",
    ),
    Bug("a saturated sensor is believed", DOSE, "if reading >= SATURATED_READING:", "if False:"),
    Bug("a sensor that sticks is believed", DOSE, "_STILL_LOOKS = const(16)", "_STILL_LOOKS = const(16_000)"),
    Bug("a light that saw light before is counted", DOSE, "dark * _DARK_SHARE > self._level_whole", "False"),
    Bug(
        "a sensor lost in mid-light goes on beyond what was planned",
        DOSE,
        "self.end_ticks = min(self._gate_ticks, ticks + left)",
        "self.end_ticks = self._most_ticks",
    ),
    Bug(
        "a counted light has no cap",
        DOSE,
        "_CAP_NUMERATOR, _CAP_DENOMINATOR = const(1_259)",
        "_CAP_NUMERATOR, _CAP_DENOMINATOR = const(2_600)",
    ),
    Bug(
        "the level of another lamp is taken",
        SENSOR,
        "return self.lamps.get(name) if self.fitted else None",
        "return list(self.lamps.values())[0] if self.fitted and self.lamps else None",
    ),
    Bug("how paper sees it is left out", DOSE, "        if self._power == _UNITY:", "        if True:"),
    # -- starting and stopping ---------------------------------------------------------------------
    Bug("a bounce is a press", GESTURES, "INTEGRATE_MS = const(25)", "INTEGRATE_MS = const(2)"),
    Bug("a press starts", TABLE, "(READY, SHORT, when.can_light", "(READY, PRESS, when.can_light"),
    Bug("a light starts by itself", ENTRIES, "if state == st.LIT or not", "if not"),
    Bug("a second tap starts again", WHEN, "_CALM_MS = const(500)", "_CALM_MS = const(-9000)"),
    Bug("the refractory time swallows a stop", TABLE, "(LIT, PRESS, when.always", "(LIT, PRESS, when.calm"),
    Bug("the release of a stop resumes", SEQUENCER, "_BLIND_MS = const(100)", "_BLIND_MS = const(-9000)"),
    Bug(
        "a frightened foot abandons",
        SEQUENCER,
        "event == st.SHORT or event == st.LONG",
        "event == st.SHORT",
    ),
    Bug(
        "a release lights, however old it is", GESTURES, "_STALE_MS = const(200)", "_STALE_MS = const(9_000)"
    ),
    Bug("how old a release is stays unknown", GESTURES, "_LOOK_MS = const(100)", "_LOOK_MS = const(9_000)"),
    Bug("chatter is no fault", GESTURES, "CHATTER_CHANGES = const(8)", "CHATTER_CHANGES = const(800)"),
    Bug("a stuck pedal is no fault", GESTURES, "_STUCK_MS = const(10_000)", "_STUCK_MS = const(100_000)"),
    Bug("a broken wire is no fault", GESTURES, "_DISAGREE_MS = const(250)", "_DISAGREE_MS = const(250_000)"),
    Bug("a foot off its rest does not end a light", GESTURES, "return make or not rest", "return False"),
    Bug(
        "a long press never counts", GESTURES, "_LONG_MS = const(1000)\n_TOO", "_LONG_MS = const(7000)\n_TOO"
    ),
    # -- light given and left ----------------------------------------------------------------------
    Bug("the dead time counts as light", RUN, 'max(0, gate_ms - self.step()["dead_ms"])', "gate_ms"),
    Bug(
        "a stop within the dead time gives negative light",
        RUN,
        'max(0, gate_ms - self.step()["dead_ms"])',
        'gate_ms - self.step()["dead_ms"]',
    ),
    Bug(
        "resumed with all of the light",
        ACTIONS,
        'run.gate_ms = run.left_ms + run.step()["dead_ms"]',
        'run.gate_ms = run.step()["time_ms"] + run.step()["dead_ms"]',
    ),
    Bug(
        "resumed without the dead time",
        ACTIONS,
        'run.gate_ms = run.left_ms + run.step()["dead_ms"]',
        "run.gate_ms = run.left_ms",
    ),
    Bug("the remainder is not kept", RUN, "self.left_ms = max(0, self.lit_left_ms - self.light_ms)", "pass"),
    Bug(
        "a remainder that the relay cannot do is given",
        WHEN,
        'seq.run.left_ms < seq.run.step()["least_ms"]',
        "seq.run.left_ms < 0",
    ),
    Bug("the ten-minute budget is ignored", DUTY, "        if over_ms <= 0:", "        if True:"),
    Bug("the lamp's ten minutes begin anew at each start", BOOT, "        past.feed(record)\n", ""),
    Bug(
        "the time without power is thought long",
        DUTY,
        "shift(-self._clock_ms)",
        "shift(-self._clock_ms - WINDOW_MS)",
    ),
    Bug(
        "a light cut off by the power heats no lamp",
        DUTY,
        "        self._t_ms = 0\n        self._add(self._open_ms)",
        "        self._t_ms = 0",
    ),
    Bug(
        "a whole light is told as held",
        TABLE,
        "(LIT, GATE, when.light_whole, do.note_whole, WAIT_NEXT),",
        "",
    ),
    # -- what is written ---------------------------------------------------------------------------
    Bug(
        "no intent is written",
        ENTRIES,
        "    seq.effects.record(\n        records.INTENT, run.index + 1",
        "    0 and seq.effects.record(\n        records.INTENT, run.index + 1",
    ),
    Bug(
        "the intent is written on the release",
        ACTIONS,
        "    seq.effects.push(fx.LAMP_ON, run.cap_ms)",
        "    seq.effects.record(records.FAULT, 1, 1)\n    seq.effects.push(fx.LAMP_ON, run.cap_ms)",
    ),
    Bug(
        "a second intent after a fault",
        ENTRIES,
        "    if not seq.run.intent_open:\n        _open_intent(seq)\n\n\ndef _enter_focus",
        "    _open_intent(seq)\n\n\ndef _enter_focus",
    ),
    Bug(
        "records are written while lit",
        ACTIONS,
        "    seq.beat_ms += 1000\n",
        "    seq.beat_ms += 1000\n    seq.record(records.BEGIN)\n",
    ),
    Bug(
        "a gap in the journal",
        JOURNAL,
        "= self._last + 1, self._unwritten",
        "= self._last + 2, self._unwritten",
    ),
    Bug(
        "numbers begin anew after a restart",
        JOURNAL,
        "self._last, whole_bytes = number, whole_bytes",
        "self._last, whole_bytes = 0, whole_bytes",
    ),
    Bug(
        "a torn tail is not cut off",
        JOURNAL,
        "        if not is_damaged and files.size(_path(first)) > whole_bytes:",
        "        if False:",
    ),
    Bug(
        "what is not acknowledged is deleted",
        JOURNAL,
        "len(self._firsts) > 2 and self._firsts[1] <= number + 1",
        "self._firsts",
    ),
    Bug(
        "the gate time is written in ticks",
        ACTIONS,
        "run.sheet, run.gate_ms, run.light_ms, run.left_ms, how)",
        "run.sheet, run.gate_ms * 100, run.light_ms, run.left_ms, how)",
    ),
    Bug(
        "a flash that has come back is not noticed",
        JOURNAL,
        "        if len(self._unwritten) == _MOST_UNWRITTEN:\n            self._write_oldest()",
        '        if len(self._unwritten) == _MOST_UNWRITTEN:\n            raise StorageError("many wait")',
    ),
    Bug("a write is not read back", FILES, "    if found != data:", "    if False:"),
    # -- after a reset -----------------------------------------------------------------------------
    Bug(
        "a run goes on by itself after a reset",
        SEQUENCER,
        "        self._enter(st.BROKEN)",
        "        self._enter(st.WAIT_HERE)",
    ),
    Bug(
        "gone into again at the wrong step",
        SEQUENCER,
        "run.index = max(broken.step, 1) - 1",
        "run.index = max(broken.step, 1) - 2",
    ),
    Bug(
        "bounds that leave out what was given",
        RECOVERY,
        'state.tally.add(state.step, 0, record["light_ms"])',
        "state.tally.add(state.step, 0, 0)",
    ),
    Bug(
        "a light that was given whole is offered again after a cut",
        RECOVERY,
        "state.come_to(state.step + 1, state.sheet)",
        "state.come_to(state.step, state.sheet)",
    ),
    Bug(
        "a step that had ended is gone into again after a cut",
        RECOVERY,
        'state.come_to(record["step"] + 1, record["sheet"])',
        'state.come_to(record["step"], record["sheet"])',
    ),
    Bug(
        "the least bound is lost at a second cut",
        RECOVERY,
        'state.tally.put(state.step, record["least_ms"], record["most_ms"])',
        'state.tally.put(state.step, 0, record["most_ms"])',
    ),
    Bug(
        "after a cut all of the light is offered",
        RUN,
        """        self.left_ms = self.missing_ms()
""",
        """        self.left_ms = self.step()["time_ms"]
""",
    ),
    Bug(
        "a cut is not told",
        BOOT,
        "    if seq.state == st.BROKEN or recovery.focus_open:",
        "    if False:",
    ),
    Bug(
        "the ledger forgets",
        BOOT,
        "ledger.next_run = max(ledger.next_run, recovery.last_run + 1)",
        "ledger.next_run = 1",
    ),
    Bug(
        "a fault goes by itself",
        TABLE,
        "(FAULT, LONG, when.always, do.acknowledge",
        "(FAULT, PRESS, when.always, do.acknowledge",
    ),
    # -- white light -------------------------------------------------------------------------------
    Bug("white light before its step", RUN, "reached >= programs.white_from(self.program)", "reached >= 0"),
    Bug(
        "white light in a fault",
        ENTRIES,
        " when the fault is acknowledged.\n    seq.lock_white()",
        " when the fault is acknowledged.\n    seq._switch_white(1)",
    ),
    Bug(
        "white light after an interrupted run",
        ENTRIES,
        "def _enter_broken(seq):\n    seq.clear_timers()\n    seq.lock_white()",
        "def _enter_broken(seq):\n    seq.clear_timers()\n    seq._switch_white(1)",
    ),
    # -- the lamp's sensor -------------------------------------------------------------------------
    Bug(
        "a welded relay is not seen",
        SIGHT,
        "        return st.WELDED_RELAY if self._due_ms == _NEVER_MS else st.NO_FAULT",
        "        return st.NO_FAULT",
    ),
    Bug("a dead lamp is not seen", SIGHT, "return st.NO_LIGHT if late", "return st.NO_FAULT if late"),
    Bug("a dead lamp counts as light", APP, "0 if self._unseen else self._gate_ms", "self._gate_ms"),
    Bug(
        "a lamp that goes out has given nothing",
        APP,
        "st.NO_LIGHT and self._sight.gave_none()",
        "st.NO_LIGHT",
    ),
    Bug(
        "a lamp that burnt once counts as burning",
        SIGHT,
        "self._burnt = self._burnt and not is_open",
        "self._burnt = self._burnt",
    ),
    # -- programs and the link ---------------------------------------------------------------------
    Bug(
        "the lamp's cap is ignored",
        PROGRAM,
        'min(lamp["cap_ms"], lamp["window_ms"], LIGHT_CAP_MS)',
        "LIGHT_CAP_MS",
    ),
    Bug(
        "a lamp that is not there is accepted",
        PROGRAM,
        'if step["lamp"] >= len(program["lamps"])',
        'if step["lamp"] > len(program["lamps"])',
    ),
    Bug(
        "a light may begin by itself, says the check",
        PROGRAM,
        '    if step["auto"]:\n        raise ProgramError(number',
        "    if False:\n        raise ProgramError(number",
    ),
    Bug("any check sum is right", WIRE, "    if crc_hex(body) != crc:", "    if False:"),
    Bug(
        "check sums in capitals pass",
        WIRE,
        "    if crc_hex(body) != crc:",
        "    if crc_hex(body) != crc.lower():",
    ),
    Bug(
        "a stale reply for another session",
        SESSION,
        "message_id == self._last_id",
        "message_id[-1:] == (self._last_id or '')[-1:]",
    ),
    Bug(
        "a repeated request is done twice",
        SESSION,
        "        if self._last_reply is not None and message_id == self._last_id:\n"
        "            return self._last_reply\n",
        "        self._schema = self._schema[::-1] if message_id == self._last_id else self._schema\n",
    ),
    Bug(
        "a program may go in the middle of a run",
        SESSION,
        "if rules[3] and not self._is_idle():",
        "if False:",
    ),
    Bug("a wrong hash is shown", STORE, "self._heads[slot][0][:16]]", "self._heads[slot][0][1:17]]"),
    Bug(
        "a wrong hash is journalled",
        "footlight_core/records.py",
        "return run.sha[:SHA_CHARS]",
        "return run.sha[1 : SHA_CHARS + 1]",
    ),
    Bug("the display is not written again", APP, "_REFRESH_MS = const(1000)", "_REFRESH_MS = const(100_000)"),
)

# In the program of the state machine: these need the PIO emulator.
GATE_BUGS = (
    Bug(
        "a program that goes back for another word",
        LAMP,
        '    jmp("stay").side(0)',
        '    pull(block).side(0)\n    out(y, 24).side(0)\n    jmp("counts").side(0)',
    ),
    Bug("the pedal's contact is not asked", LAMP, '    jmp(pin, "end").side(1)  # 2\n', ""),
    Bug(
        "a word does not end the light",
        LAMP,
        '    jmp(not_x, "on").side(1)\n    jmp("end").side(0)  # 3',
        '    jmp("on").side(1)',
    ),
    Bug("no ticks are the longest light", LAMP, '    jmp("end").side(0)  # 4\n', ""),
    Bug("a pedal that is down at the start gives an edge", LAMP, '    jmp(pin, "end").side(0)  # 5\n', ""),
    Bug("the end leaves the gate high", LAMP, "    in_(y, 24).side(0)", "    in_(y, 24).side(1)"),
    Bug("the pump goes on after the end", LAMP, "    push(noblock).side(0)", "    push(noblock).side(2)"),
    Bug("32 bits are counted", LAMP, "    out(y, 24).side(0)", "    out(y, 32).side(0)"),
)
