"""What a scene will look like on a paper, before paper: each place's tone, and for wanted tones the
settings.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from footlight.errors import InputError
from footlight.light.preflash import Decision, decide
from footlight.tones import flash as flashes
from footlight.tones.advice import Change, Setting, best, settings_for, stops_for
from footlight.tones.curve import Curve, Iso, curve_of
from footlight.tones.exposures import Weights
from footlight.tones.learning import Doubts, Knowledge, Lesson, Place, knowledge
from footlight.tones.look import lightness, words
from footlight.tones.scene import Scene
from footlight.written.tones import Asked, Kept, Paper

# As `camera time` has it while a paper is not measured (docs/camera.md).
_P_UNMEASURED, _P_UNMEASURED_SD, _P_SD = 0.9, 0.1, 0.02
_THRESHOLDS = (0.0, 0.5, 1.0, 1.5)


@dataclass(frozen=True)
class Predicted:
    """A place: metered EV, density with its 90 % band [D], L*, words (the first is the likeliest)."""

    name: str
    ev: float
    density_d: float
    low_d: float
    high_d: float
    lightness: float
    words: tuple[str, ...]
    is_beyond: bool


@dataclass(frozen=True)
class Taught:
    """A print of the paper's file and what it taught, or what is to be asked about it."""

    name: str
    batch: str
    lesson: Lesson


@dataclass(frozen=True)
class Answer:
    """All that is told of a scene on a paper.

    curve: as it stands after the prints. threshold_s: flash that takes 0.04 D of black; None without a flash.
    flash_choice: what `flash decide` says of the two darkest places, predicted. settings: for the wanted
    tones, one for each flash; chosen: the best of them. alone: what each wanted tone asks for by itself, with
    the planned flash.
    """

    paper: str
    batch: str
    curve: Curve
    iso: Iso
    places: tuple[Predicted, ...]
    taught: tuple[Taught, ...]
    scene: Scene
    threshold_s: float | None
    flash_choice: Decision | None
    settings: tuple[Setting, ...]
    chosen: Setting | None
    wanted: Mapping[str, float]
    alone: Mapping[str, Change | None]
    notes: tuple[str, ...]


def predict_tones(paper: Paper, asked: Asked) -> Answer:
    """The tones of a scene. Raises InputError for a curve that is none, and a flash of unknown weight."""
    _check_flash(paper, asked.scene)
    try:
        first = _known(paper)
    except InputError as error:
        raise InputError(f"{paper.file}: {error.text.removeprefix('tones: ')}") from error
    known, taught, batch = _learn(first, paper)
    threshold_s = flashes.threshold(known) if paper.alone else None
    tried = sorted({share * (threshold_s or 0.0) for share in _THRESHOLDS} | {asked.scene.flash})
    settings = tuple(settings_for(known, asked.scene, asked.wanted, tried)) if asked.wanted else ()
    curve = known.learnt_curve()
    return Answer(
        paper=paper.name,
        batch=batch,
        curve=curve,
        iso=curve.iso(),
        places=tuple(_predicted(known, curve, asked.scene, name) for name in asked.scene.places),
        taught=taught,
        scene=asked.scene,
        threshold_s=threshold_s,
        flash_choice=_flash_choice(known, asked.scene, tried),
        settings=settings,
        chosen=best(settings) if settings else None,
        wanted=asked.wanted,
        alone={name: _alone(known, asked, name) for name in asked.wanted},
        notes=_notes(paper),
    )


def _check_flash(paper: Paper, scene: Scene) -> None:
    is_used = scene.flash or paper.sheet.flash or any(kept.scene.flash for kept in paper.prints)
    if is_used and not paper.alone:
        raise InputError(
            f"{paper.file}: a flash was used and its weight is not known; give flashes alone,"
            ' reversed, in the paper\'s file: [flash] alone = [["4 s", "1.70 D"]]'
        )


def _known(paper: Paper) -> Knowledge:
    """What the sheet tells. Where it had a flash itself, its weight is found with the curve, by turns."""
    p = _P_UNMEASURED if paper.p is None else paper.p
    weights = Weights(paper.flare_share, 0.0, p, paper.sheet.time_s)
    curve, off_stops = curve_of(paper.sheet, weights), 0.0
    if paper.alone:
        for _ in range(6 if paper.sheet.flash else 1):
            share, off_stops = flashes.share_of(curve, paper.alone)
            weights = replace(weights, flash_share=share)
            curve = curve_of(paper.sheet, weights)
    usual = Doubts()
    doubts = replace(
        usual,
        sheet_stops=paper.sheet.light_sd_stops,
        flash_stops=off_stops,
        exponent=_P_UNMEASURED_SD if paper.p is None else _P_SD,
        meter_stops=paper.meter_off_stops or usual.meter_stops,
    )
    return knowledge(curve, weights, doubts)


def _learn(known: Knowledge, paper: Paper) -> tuple[Knowledge, tuple[Taught, ...], str]:
    taught, batch = [], paper.batch
    for kept in paper.prints:
        if kept.batch != batch:
            known, batch = known.of_another_batch(), kept.batch
        known, lesson = known.after(_places(kept))
        taught.append(Taught(kept.scene.name, kept.batch, lesson))
    return known, tuple(taught), batch


def _places(kept: Kept) -> list[Place]:
    return [Place(name, kept.scene.exposure(name), density_d) for name, density_d in kept.densities.items()]


def _predicted(known: Knowledge, curve: Curve, scene: Scene, name: str) -> Predicted:
    tone = known.tone(scene.exposure(name))
    return Predicted(
        name,
        scene.places[name],
        tone.density_d,
        tone.low_d,
        tone.high_d,
        lightness(tone.density_d),
        words(tone, curve),
        tone.is_beyond,
    )


def _flash_choice(known: Knowledge, scene: Scene, tried: list[float]) -> Decision | None:
    """What the strip that decides would say of the two darkest places."""
    if len(scene.places) < 2 or len(tried) < 2:
        return None
    darkest = sorted(scene.places, key=scene.places.__getitem__)[:2]
    darker, lighter = (scene.exposure(name) for name in darkest)
    return decide([flashes.trial(known, darker, lighter, amount) for amount in tried])


def _alone(known: Knowledge, asked: Asked, name: str) -> Change | None:
    """What one wanted tone alone asks for, with the planned flash; None where the paper has no such tone."""
    try:
        return stops_for(known, asked.scene.exposure(name), asked.wanted[name])
    except InputError:
        return None


def _notes(paper: Paper) -> tuple[str, ...]:
    notes = []
    if paper.p is None:
        notes.append("p of long exposures is not measured: 0.9 ± 0.1 is taken, and its doubt counted")
    if not paper.alone:
        notes.append("no flash alone was read: nothing can be said of pre-flash")
    return tuple(notes)
