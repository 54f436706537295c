"""`isolator compare`: two recordings of the same test moves, before and after a change of feet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path

import numpy as np

from isolator.brief import Brief, read_brief
from isolator.commands.designed import design_file, designed_stand
from isolator.commands.known_cards import known_cards
from isolator.commands.moves_found import AIR, PRINTER, find_moves, joint_band, usual_place
from isolator.commands.moves_told import publish_told
from isolator.design.naming import folder_name
from isolator.design.read import read_design
from isolator.measuring.beats import beating, may_beat
from isolator.measuring.before_after import Changes, changes
from isolator.measuring.energies import Key, Take, take
from isolator.measuring.predicted import predicted
from isolator.measuring.tones import tones_of
from isolator.reading.faults import refused
from isolator.reading.printable import printable
from isolator.recordings.options import ReadOptions
from isolator.recordings.recording import FULL_SCALE, Verdict
from isolator.recordings.schedule import Schedule, read_schedule
from isolator.report.figures.changes import changes_picture
from isolator.report.json.compare import compare_json
from isolator.report.json.values import Json
from isolator.report.sentences.compare_text import Told, compare_lines
from isolator.vibration.band import Band
from isolator.vibration.drives import belt_motors
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.stand import given_stand


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """What was found, and the folder that it lies in."""

    told: Told
    folder: Path
    copies: tuple[str, ...]  # of what other recordings told

    @property
    def json(self) -> Json:
        """What is told as JSON."""
        return {**compare_json(self.told), "folder": str(self.folder)}


def compare(
    before: Path,
    after: Path,
    schedule: Path,
    out: Path,
    brief: Path | None = None,
    options: ReadOptions | None = None,
    place: str = "",
) -> Compared:
    """Tell how much louder each step of the moves is in `after`, and write it into `out`.

    With a brief, what the model says stands beside it. `place` of the recorder, one of `PLACES`;
    else the air for sound files and the desk for the rest. Raises InputError for files that cannot
    be read, that do not hold the moves, or that are of two kinds.
    """
    moves = read_schedule(schedule)
    # one after the other, for the memory
    one, other = both = tuple(_half(file, moves, schedule, options) for file in (before, after))
    _same_kind(before, after, both)
    _two(before, after, both)
    place = place or usual_place(one.unit)
    ear = place == AIR
    band = joint_band([each.verdict.usable_hz for each in both], ear)
    printer = None if brief is None else read_brief(brief)
    keys: list[Key] = list(dict.fromkeys((step.speed, step.direction_deg) for step in moves.steps))
    tones, beats = {}, may_beat(keys)
    if printer is not None:
        tones = tones_of(printer.motion, keys, band)
        belts = [belt for belt, _ in belt_motors(printer.motion, printer.motors)]
        beats = beating(printer.motion, belts, keys)
    takes = [replace(each.own, band=band, ear=ear) for each in both]
    try:
        found = changes(takes[0], takes[1], tones, beats if printer else frozenset())
    except ValueError:
        raise refused(
            printable(str(after)),
            "",
            f"no step of the moves that {printable(str(before))} has as well",
            "recordings of the same moves, without long gaps",
            "record both again, from before the start to the end",
        ) from None
    model, dampers = _model(printer, found, band, out, place)
    told = Told(
        files=(before.name, after.name),
        verdicts=(one.verdict, other.verdict),
        calibrated=(one.calibrated, other.calibrated),
        evened=(one.own.evened, other.own.evened),
        aligned=(one.own.aligned, other.own.aligned),
        changes=found,
        predicted=model,
        place=place,
        band=band,
        asked=printer is not None,
        dampers=dampers,
        beats=beats,
    )
    name = after.stem if printer is None else printer.slug
    texts = {
        "changes.svg": changes_picture(told),
        "changes.txt": "\n".join(compare_lines(told)) + "\n",
    }
    result: Json = {"compare": compare_json(told)}
    done = publish_told(out, f"{folder_name(name)}-compare", name, texts, result)
    return Compared(told=told, folder=done.folder, copies=done.copies)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Half:
    """What one recording holds of the moves, without the recording itself."""

    unit: str
    channels: int
    calibrated: bool
    verdict: Verdict
    mark: str  # by which the same samples are known again
    own: Take


def _half(file: Path, moves: Schedule, schedule: Path, options: ReadOptions | None) -> _Half:
    found = find_moves(file, moves, schedule, options)
    recording = found.recording
    own = take(found.evened, found.aligned, moves, recording.verdict.usable_hz, ear=False)
    rests = [replace(each, samples=each.samples.copy()) for each in own.rests]
    return _Half(
        unit=recording.unit,
        channels=len(recording.channels),
        calibrated=recording.calibrated,
        verdict=recording.verdict,
        mark=sha256(np.ascontiguousarray(recording.samples).data).hexdigest(),
        own=replace(own, rests=rests, evened=replace(found.evened, stretches=())),
    )


def _same_kind(before: Path, after: Path, both: Sequence[_Half]) -> None:
    """Refuse recordings whose levels cannot be set against each other."""
    one, other = both
    file = printable(str(after))
    if one.unit != other.unit:
        got = f"samples in {other.unit}, those of {printable(str(before))} in {one.unit}"
        raise refused(file, "", got, "two recordings of one kind", "record both the same way")
    if one.channels != other.channels:
        here, there = (
            f"{each.channels} channel{'' if each.channels == 1 else 's'}" for each in (other, one)
        )
        got = f"{here}, {there} in {printable(str(before))}"
        sound = one.unit == FULL_SCALE
        advice = "save both as mono, or both as stereo" if sound else "name them with --columns"
        raise refused(file, "", got, "as many channels in both", advice)


def _two(before: Path, after: Path, both: Sequence[_Half]) -> None:
    """Refuse one recording given twice, under whatever names."""
    if both[0].mark == both[1].mark:
        got = f"the very samples of {printable(str(before))}"
        wanted = "two recordings, one on the old feet and one on the new"
        raise refused(printable(str(after)), "", got, wanted, "name both files")


def _model(
    brief: Brief | None, found: Changes, band: tuple[float, float], out: Path, place: str
) -> tuple[dict[Key, Band], bool]:
    """Return what the model says of every step, and whether dampers go with the new feet."""
    if brief is None or place == PRINTER:
        return {}, False
    cards = known_cards(brief)
    file = design_file(brief, out)
    dampers = False
    if brief.feet.given:
        after = given_stand(brief.feet.given)
    elif file is not None:
        design = read_design(file)
        after, _ = designed_stand(brief, cards, design)
        dampers = bool(design.motor_dampers)
    else:
        return {}, False
    installation = build_installation(brief, cards)
    now = build_now_stand(brief, cards) or installation.bumpers
    keys = [(step.speed, step.direction_deg) for step in found.steps]
    return predicted(installation, now, after, keys, band, place == AIR), dampers
