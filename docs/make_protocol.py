"""Writes docs/protocol.md: the prose below, and tables from the core: `python docs/make_protocol.py`."""

from pathlib import Path

from footlight import meanings
from footlight_core import dose, records, wire

PAGE = Path(__file__).with_name("protocol.md")

HEAD = """# The link between computer and controller

Made by `docs/make_protocol.py`: its tables are those of `firmware/footlight_core/wire.py` and
`records.py`, which both sides use; a test holds this page to them.

The controller works alone. The computer fills its slots, reads its journal and may look on. **No
message lights the lamp**, in any state, in any order.

## Frames

A frame is one line of printable ASCII: a [JSON-RPC 2.0](https://www.jsonrpc.org/specification) object
and, right behind its last brace, the CRC-32 of the object's bytes (that of IEEE 802.3, as in zip and
PNG files) in eight lower-case hex digits. A newline stands before it and after it, so that whatever
stood on the line cannot spoil it. At most {frame} bytes without the newlines.

```
{example}
```

- A line that does not begin with `{{`, or whose check sum is wrong, is somebody else's text: it is
  ignored.
- The check sum is compared as bytes: upper case does not pass.
- The port is the one that carries the MicroPython prompt. While the controller is idle, what
  the prompt's own tools (`mpremote`) send first leaves its program for the prompt: a return, Ctrl-C once or
  twice, a return, after half a second of silence, none of them half a second after the last. A Ctrl-C by
  itself, or amid other bytes, does nothing; in a run nothing of it does.

## Requests and replies

One request is outstanding at a time. Its `id` is `nonce.count`: the nonce of the greeting, then a
number that rises by one. The controller keeps its last reply: a request that comes again with the same
id is answered from memory and not carried out again. So a computer that hears nothing sends the same
bytes again ({tries} times in all, {patience} s apart), and ignores replies with another id.

`hello` comes first and begins a session; after a restart of the controller every other message is
refused with `greet_first`, and the computer greets again. `schema` is a short hash of every table below
and of the step kinds: two sides that differ are of different make. Then only the journal can be read,
and the computer says which side to update. `hello`, `records` and `kept` therefore never change.

An `id` that is no printable text of at most 32 characters is answered with `null`.

## Messages

'Idle' means: only when no run is under way, since it writes to the flash. For text, the limits count
characters.

{messages}

### What they do

- `hello` says who is there: `protocol` is the newest that both sides speak, 0 if there is none.
  `unix_s` is the computer's time in seconds since 1970, or 0; between runs it goes into the journal,
  for the controller has no clock of the date.
- `limits`: the longest program [bytes], the most steps, slots, the bytes of one `put`, the longest
  light [ms].
- `status`: what the controller is doing: `state` (see [states](states.md)), `t` ms since it was
  switched on, slot and hash of the program, run, sheet, step, `start` of the step [ms], `left_ms` of
  light, `gate_ms`, `dose_ms` (light counted so far, -1 where none is), whether white light is
  permitted, the fault code, and how the journal was found at the start (0 whole, 1 new, 2 damaged).
- `slots`: the slots in use as `[number, title, first 16 digits of the SHA-256]`; an empty title:
  damaged.
- `begin` announces a program and answers how many of its bytes are there already; the same announcement
  after an interruption goes on with the same upload. `put` adds bytes (base64) and answers the next
  offset wanted; bytes that are there already are passed over. `commit` checks length, hash and every
  rule of the program, and only then replaces what the slot holds, by renaming; given again it answers
  the same.
- `clear` empties a slot.
- `numbers` tells the greatest sheet number of this controller that the notebook knows: the controller
  goes on after it, so that no number is given twice even where its own memory of them is lost. It answers
  the next number.
- `records` gives one record of the journal: its line as it was written, "" if it is damaged or no
  longer kept, and the numbers of the oldest and newest record.
- `kept`: everything up to that number is safe in a notebook; the controller may delete it.
- `sense`: what the light sensor reads (0 to 65535 for 3.3 V, the mean of eight readings), whether the
  lamp is on (`lit`), `t`, `tail_ms` (light after the last gate's end, in ms at its level; -1: none seen),
  whether a sensor is fitted, and `lamps`: `[name, level, dark, warm_ms, tail_ms, power]` of each that
  was learnt.
- `fit` says whether a sensor is fitted; `learn` what was learnt of a lamp (at most four; a `level` of 0
  forgets it), and that a sensor is fitted. `level` and `dark` are readings, `warm_ms` the time to get
  warm, `power` the stops of paper for a stop of the sensor, in thousandths.
- `maintain` ends the controller's program after the reply, so that the prompt can be used.

## Refusals

{refusals}

## Records of the journal

A record is a line like that of a frame, without the newlines; at most {line} bytes. Beside the fields
of its kind it holds `n`, its number (from 1, without gaps), `t`, ms since the controller was switched
on, and `k`, its kind. Controller id, epoch (random, made anew when the memory is formatted) and number
together name a record for ever.

{kinds}

`intent` is written before the pedal can light the lamp, `gave` (or, for the set-up light, `focus`)
after it; after a power cut `cut` tells where the run stands and gives the bounds of all light that the
sheet has had in that step. `move`: by the menu, or after a cut, the run was taken to that step
(one past the last: all have ended). `how` is one of
{hows}. Run 0 is the set-up light.

`dose` follows the `gave` of a light at once where a sensor is fitted: `dose_ms`, light in reference time
(what the learnt level gives), tail included; `least`, `mean` and `most`, the lamp's level in thousandths
of the learnt one since it was steady (0: it never was). Its `how` says how the light was measured:
*counted*, or by seconds from the moment that the sensor could not be believed: {measures}. Of a counted
light `light_ms` of `gave` is what was counted, and the whole where less than a hundredth (or 5 ms) is
missing.
"""

_MEASURES = (dose.UNLEARNT, dose.BRIGHT, dose.LEVEL, dose.SATURATED, dose.STUCK, dose.LOST)

_HOWS = (
    records.WHOLE,
    records.HELD,
    records.SHORT,
    records.ABANDONED,
    records.TIME,
    records.PEDAL,
    records.EARLY,
    records.SKIPPED,
    records.ASIDE,
    records.LEFT,
    records.BROKEN,
)


def table(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    """A Markdown table."""
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)


def parameter(rule: tuple) -> str:
    """One parameter with its limits."""
    name, kind, least, most = rule
    size = f"{least}" if least == most else f"{least} to {most}"
    return f"`{name}` {'text, ' if kind is str else ''}{size}"


def messages() -> str:
    """Every message, its parameters and its reply."""
    replies = meanings.REPLIES
    rows = []
    for name, rules, any_make, idle in wire.MESSAGES:
        keys = replies[name]
        reply = "the state of the run" if keys is None else ", ".join(f"`{key}`" for key in keys)
        when = ", ".join(word for word, true in (("any make", any_make), ("idle", idle)) if true)
        rows.append((f"`{name}`", ", ".join(map(parameter, rules)) or "–", reply or "–", when or "–"))
    return table(("message", "parameters", "result", "allowed"), rows)


def refusals() -> str:
    """Every refusal and its code."""
    return table(
        ("name", "code", "meaning"),
        [(f"`{name}`", f"{code}", meanings.REFUSALS[name]) for name, code in wire.REFUSALS],
    )


def kinds() -> str:
    """Every kind of record."""
    rows = [(f"`{name}`", ", ".join(f"`{field}`" for field in fields)) for name, fields in records.KINDS]
    return table(("kind", "fields"), rows)


def page() -> str:
    """The whole page."""
    from footlight.link import channel

    request = {"jsonrpc": "2.0", "id": "4f2a91c0.2", "method": "slots", "params": {}}
    return HEAD.format(
        frame=wire.MAX_FRAME,
        example=wire.frame(request).decode().strip(),
        tries=channel.TRIES,
        patience=f"{channel.PATIENCE_S:g}",
        messages=messages(),
        refusals=refusals(),
        line=records.MAX_LINE,
        kinds=kinds(),
        hows=", ".join(f"*{how}*" for how in _HOWS),
        measures=", ".join(f"*{how}*" for how in _MEASURES),
    )


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
