"""What is told of two recordings of the same moves: the answer, a table, and doubts."""

from __future__ import annotations

import math
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from isolator.measuring.alignment import Aligned
from isolator.measuring.before_after import Changes, StepChange
from isolator.measuring.change import Change
from isolator.measuring.energies import Key
from isolator.measuring.evened import Evened
from isolator.recordings.recording import Verdict
from isolator.report.sentences.listed import listed
from isolator.report.sentences.loudness import loudness
from isolator.report.sentences.moves_found import found_lines, gain_line
from isolator.report.sentences.numbers import number
from isolator.vibration.band import Band

FLOOR_DB = 3.0
"""Rooms that differ by more are told."""
UNITS = {"air": "dB(A)", "desk": "dB", "printer": "dB"}
ANY = "any"
"""What is said of an end that nothing holds."""
NAMES = ("the first recording", "the second recording")
ALONE = "feet alone"
"""What predictions count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """All that is told of two recordings; pairs are before and after."""

    files: tuple[str, str]
    verdicts: tuple[Verdict, Verdict]
    calibrated: tuple[bool, bool]
    evened: tuple[Evened, Evened]
    aligned: tuple[Aligned, Aligned]
    changes: Changes
    predicted: Mapping[Key, Band]
    place: str  # of the recorder: air, desk, printer
    band: tuple[float, float]  # frequencies looked at [Hz]
    asked: bool  # a brief was given
    dampers: bool  # motor dampers go with the new feet
    beats: frozenset[Key]  # steps in which two motors turn, or may turn, at one speed

    @property
    def unit(self) -> str:
        """Return the unit of changes."""
        return UNITS[self.place]

    @property
    def clock_ratio(self) -> float:
        """Return how fast the second recording's clock runs against the first one's."""
        return self.aligned[1].ratio / self.aligned[0].ratio

    @property
    def unsure(self) -> int:
        """Return in how many steps two motors add up or cancel, as far as is known."""
        return sum(step.beats for step in self.changes.steps)

    def model(self, step: StepChange) -> Band | None:
        """Return what the model says of a step."""
        return self.predicted.get((step.speed, step.direction_deg))

    def sure(self, step: StepChange) -> bool:
        """Return whether no two motors may add up or cancel in a step."""
        return (step.speed, step.direction_deg) not in self.beats


def compare_lines(told: Told) -> list[str]:
    """Return the answer, the change of every step, and doubts."""
    return [*answer_lines(told), "", *table_lines(told), *(f"check: {x}" for x in doubts(told))]


def answer_lines(told: Told) -> list[str]:
    """Return what matters first: the whole, the best and the worst step."""
    found = told.changes
    kind = {"air": "sound", "desk": "shaking of the desk", "printer": "shaking of the printer"}
    low, high = (number(each, 2) for each in told.band)
    lines = [
        f"{_louder(found.whole, told.unit)} over all steps{_told_by(found)}; {kind[told.place]}, "
        f"{low} to {high} Hz"
    ]
    sounds = loudness(found.whole.change.nominal) if told.place == "air" else ""
    if sounds and not found.whole.near_room:
        lines[0] += f": {sounds}"
    sure = [step for step in found.steps if told.sure(step)]
    clear = [step for step in sure if not step.near_room]
    ranked = sorted(clear or sure, key=lambda step: step.change.nominal)
    if len(ranked) > 1:
        for word, step in (("best", ranked[0]), ("worst", ranked[-1])):
            lines.append(f"{word} at {_where(step)}: {_louder(step, told.unit)}")
    pairs = [(step, model) for step in clear if (model := told.model(step)) is not None]
    if pairs:
        hit = [_inside(step.change, model) for step, model in pairs]
        wide = statistics.median(model.high - model.low for _, model in pairs)
        lines.append(
            f"predicted ({ALONE}) and measured bands meet in {sum(hit)} of {len(hit)} steps that "
            f"are sure and stand clear of the room; those predicted are some {wide:.0f} dB wide"
        )
    bands = band_words(found)
    return [*lines, bands] if bands else lines


def _told_by(found: Changes) -> str:
    """Return what of the steps is told, where it is not all that was recorded."""
    lines, steps = sum(step.by_lines for step in found.steps), len(found.steps)
    if not lines:
        return ""
    where = "" if lines == steps else f" in {lines} of {steps} steps"
    return f", by the lines that stand out of the room{where}"


def table_lines(told: Told) -> list[str]:
    """Return a row for every speed and a column for every direction; predicted in brackets."""
    directions = sorted({step.direction_deg for step in told.changes.steps})
    speeds = sorted({step.speed for step in told.changes.steps})
    cells = {(step.speed, step.direction_deg): _cell(told, step) for step in told.changes.steps}
    rows = [["mm/s", *(f"{number(each)}°" for each in directions)]]
    for speed in speeds:
        row = [cells.get((speed, each), "–") for each in directions]
        rows.append([number(1e3 * speed), *row])
    wide = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    lines = ["  ".join(c.rjust(w) for c, w in zip(row, wide, strict=True)) for row in rows]
    mean = f"change in {told.unit}, ± nine of ten"
    mean += f"; in brackets predicted, {ALONE}" if told.predicted else ""
    mean += "; ~ within 3 dB of the room" if any(s.near_room for s in told.changes.steps) else ""
    mean += "; ? two motors at one speed" if told.unsure else ""
    return [mean, *lines]


def doubts(told: Told) -> list[str]:
    """Return what may be wrong with the recordings, and what the changes do not tell."""
    found, lines = told.changes, []
    for at, name in enumerate(NAMES):
        lines += found_lines(name, told.verdicts[at], told.evened[at], told.aligned[at])
        lines += [gain_line(name)] if found.automatic[at] else []
    if found.by_room:
        lines.append(
            "changes are told against the room's noise behind each step, which has to have been as "
            "loud both times; switch automatic gain off and record again to be sure"
        )
    elif abs(found.floor) > FLOOR_DB:
        way = "louder" if found.floor > 0.0 else "quieter"
        lines.append(
            f"the pauses are {abs(found.floor):.0f} dB {way} in the second recording: another "
            "room noise, or another gain; if it is the gain, every change is off by as much"
        )
    lines += _of_beats(told)
    near = sum(step.near_room for step in found.steps)
    if near:
        lines.append(
            f"{near} of {len(found.steps)} steps {'is' if near == 1 else 'are'} within 3 dB of the "
            "room: their change is told as recorded, and may be larger"
        )
    if found.lost:
        are = "step is" if found.lost == 1 else "steps are"
        lines.append(f"{found.lost} {are} not whole in both recordings and left out")
    if not all(told.calibrated):
        lines.append(
            "neither recording is calibrated: changes alone are told, no level in dB"
            if not any(told.calibrated)
            else "one recording is calibrated and one is not: changes hold for one sensor alone"
        )
    lines.append(
        "bands hold what scatters within each recording; recorders put down elsewhere add to it: "
        "record the same feet twice to see how much"
    )
    return [*lines, *_of_model(told)]


def _of_beats(told: Told) -> list[str]:
    """Return what two motors that turn at one speed do to steps."""
    steps = len(told.changes.steps)
    if told.unsure:
        lines = [
            f"in {told.unsure} of {steps} steps two motors turn at one speed: their tones add up "
            "or cancel, differently in each recording; none of these steps alone is sure, and "
            "their bands say so"
        ]
        if told.unsure == steps:
            lines.append("no best and no worst step is told: none is sure by itself")
        return lines
    if told.asked or not told.beats:
        return []
    directions = listed([f"{number(each)}°" for each in sorted({key[1] for key in told.beats})])
    return [
        f"along {directions} two motors may turn at one speed, and add up or cancel: that is not "
        "in the bands, and such steps are named neither best nor worst; give --brief, which knows"
    ]


def _of_model(told: Told) -> list[str]:
    """Return what the model's changes do not tell, or why there are none."""
    if not told.asked:
        return []
    if told.place == "printer":
        return ["on the printer itself nothing is predicted: soft feet let it move more"]
    if not told.predicted:
        return [
            "nothing is predicted: the brief has no new feet; run `isolator design` on it first, "
            "or name them in feet.design"
        ]
    measured, models = told.changes.whole.change, list(told.predicted.values())
    turned = measured.low > 0.0 and all(each.high < 0.0 for each in models)
    lines = ["predicted is what leaves through the feet into the desk"]
    if told.place == "air":
        lines[0] += "; what the frame and the belts send into the air stays as it was"
    if turned:
        lines.append(
            "it is louder where quieter is predicted of every step: is the first recording that of "
            "the old feet?"
        )
    if told.dampers:
        lines.append("motor dampers of the design are not in what is predicted: feet alone are")
    return lines


def _where(step: StepChange) -> str:
    return f"{number(1e3 * step.speed)} mm/s along {number(step.direction_deg)}°"


def _louder(told: Change, unit: str) -> str:
    """Return a change in words with its band."""
    nominal, (low, high) = told.change.nominal, _ends(told.change)
    if not round(nominal, 1):
        ends = [_sized(each) for each in (told.change.low, told.change.high)]
        return f"about the same ({ends[0]} to {ends[1]} {unit}, minus is quieter)"
    word = "louder" if nominal > 0.0 else "quieter"
    more = f"{low} to {high}" if nominal > 0.0 else f"{high} to {low}"
    more = "how much is not known" if low == high == ANY else more
    return f"{_sized(abs(nominal))} {unit} {word} ({more})"


def _ends(band: Band) -> tuple[str, str]:
    """Return both ends of a band of changes as amounts of the nominal one's kind."""
    sign = 1.0 if band.nominal > 0.0 else -1.0
    return tuple(_sized(sign * each) for each in (band.low, band.high))  # type: ignore[return-value]


def _sized(value: float) -> str:
    """Return decibels to a tenth, in words where there is no end.

    >>> _sized(-0.04), _sized(7.96), _sized(-2.0), _sized(float("inf"))
    ('0.0', '8.0', '−2.0', 'any')
    """
    if not math.isfinite(value):
        return ANY
    return f"{round(value, 1) + 0.0:.1f}".replace("-", "−")


def _cell(told: Told, step: StepChange) -> str:
    band = step.change
    mark = f"{'?' if step.beats else ''}{'~' if step.near_room else ''}"
    half = (band.high - band.low) / 2.0
    wide = f"±{_sized(half)}" if math.isfinite(half) else ""
    model = told.model(step)
    beside = "" if model is None else f" ({model.nominal:.0f})".replace("-", "−")
    return f"{mark}{_sized(band.nominal)}{wide}{beside}"


def _inside(one: Band, other: Band) -> bool:
    return one.low <= other.high and other.low <= one.high


def band_words(found: Changes) -> str:
    """Return which third octaves are plainly quieter and which louder."""
    clear = [each for each in found.bands if not each.near_room]
    quiet = [number(each.centre) for each in clear if each.change.high < 0.0]
    loud = [number(each.centre) for each in clear if each.change.low > 0.0]
    return "; ".join(_of_bands(((quiet, "quieter"), (loud, "louder"))))


def _of_bands(rows: Sequence[tuple[list[str], str]]) -> list[str]:
    return [
        f"{word} in the third octave{'s' if len(names) > 1 else ''} at {listed(names)} Hz"
        for names, word in rows
        if names
    ]
