"""What came home from a controller, told to a person and to a script."""

from dataclasses import asdict

from footlight.actions.collect_journal import Home
from footlight.notebook.journal import bring, paper_home
from footlight.quantities.spans import format_spans


def home_lines(home: Home) -> list[str]:
    """What a person is told of it."""
    brought = home.brought
    count = f"{brought.new} new record{'' if brought.new == 1 else 's'}"
    said = [f"{count} from controller {home.controller}{_of(brought)}"]
    said += paper_lines(home.papers)
    said += [f"sheet {sheet}: {advice.text}" for sheet, words in home.aftermath.items() for advice in words]
    said += [f"in no run: {advice.text}" for advice in home.outside]
    if brought.damaged:
        said.append(f"damaged on the controller, kept as they are: records {format_spans(brought.damaged)}")
    if brought.unknown:
        said.append(
            f"of a kind that this footlight does not know, kept: records {format_spans(brought.unknown)}; "
            "update footlight on the computer"
        )
    if brought.differing:
        said.append(
            f"records {format_spans(brought.differing)} differ from the notebook's, which were left as they"
            " are"
        )
    if home.missing:
        said.append(
            f"records {home.missing[0]}–{home.missing[1]} are no longer on the controller: "
            "another notebook has them"
        )
    if home.behind is not None:
        said.append(
            f"the controller's journal ends at record {home.behind}, before the notebook's: it lost its end"
        )
    if not home.acknowledged:
        said.append(
            "the controller is busy at the pedal: it keeps its records until the next 'footlight collect'"
        )
    return said + list(home.mix_fresh)


def home_dict(home: Home) -> dict[str, object]:
    """The same for a script."""
    brought = home.brought
    return {
        "controller": home.controller,
        "new": brought.new,
        "last": brought.last,
        "runs": sorted(brought.runs),
        "sheets": sorted(brought.sheets),
        "damaged": brought.damaged,
        "unknown": brought.unknown,
        "differing": brought.differing,
        "missing": home.missing,
        "behind": home.behind,
        "acknowledged": home.acknowledged,
        "papers": home.papers.given,
        "papers_short": home.papers.short,
        "aftermath": {sheet: [asdict(word) for word in words] for sheet, words in home.aftermath.items()},
        "outside": [asdict(word) for word in home.outside],
        "mix_fresh": list(home.mix_fresh),
    }


def paper_lines(filled: paper_home.Filled) -> list[str]:
    """What a person is told of the paper that was filled in."""
    said = [
        f"paper {name}, which is in use, for {format_spans(numbers)}: "
        "'footlight write NUMBER --paper NAME' corrects one"
        for name, numbers in filled.given.items()
    ]
    return said + [
        f"paper {name} has no sheets left by the count for {format_spans(numbers)}: "
        "'footlight paper use' changes over, 'footlight paper assign' fills in"
        for name, numbers in filled.short.items()
    ]


def _of(brought: bring.Brought) -> str:
    parts = []
    if brought.runs:
        parts.append(f"{len(brought.runs)} run{'s' if len(brought.runs) > 1 else ''}")
    if brought.sheets:
        parts.append(f"sheet{'s' if len(brought.sheets) > 1 else ''} {format_spans(sorted(brought.sheets))}")
    return ": " + ", ".join(parts) if parts else ""
