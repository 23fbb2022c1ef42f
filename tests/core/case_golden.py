"""A whole print, held against a trace that was written by hand."""

import json

from checking import Stage, check, finish


def lines(name):
    """The lines of a golden file, without comments."""
    with open("../golden/" + name) as file:
        return [line.strip() for line in file if line.strip() and not line.startswith(";")]


with open("../golden/print.json") as file:
    stage = Stage(json.load(file))
for line in lines("print.feet"):
    words = line.split(" ")
    stage.event(words[1], int(words[0]), int(words[2]) if len(words) > 2 else None)

wanted = lines("print.trace")
got = ["%d %s" % line for line in stage.take()]
for number in range(max(len(wanted), len(got))):
    mine = got[number] if number < len(got) else "nothing"
    theirs = wanted[number] if number < len(wanted) else "nothing"
    check("line %d" % (number + 1), mine, theirs)
check("nothing is under way", stage.seq.state, "idle")
finish()
