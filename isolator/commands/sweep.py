"""`isolator sweep`: test moves without heat, and the schedule of what moves when."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from isolator.brief import Brief, read_brief
from isolator.brief.read import brief_source
from isolator.commands.manifest import origin_of, write_json, write_manifest
from isolator.commands.output import publish
from isolator.design.version import version
from isolator.measuring.gcode import gcode_lines
from isolator.measuring.moves import (
    DIRECTIONS,
    HOLD,
    LIFT,
    MARGIN,
    SHORTEST,
    Bed,
    Point,
    plan_moves,
    steady,
)
from isolator.reading.changes import Change
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import Fault, InputError, refused
from isolator.reading.printable import printable
from isolator.reading.ranges import usual_step
from isolator.report.json.schedule import schedule_json
from isolator.report.json.values import Json
from isolator.report.sentences import sweep_text as words

MOVES, SCHEDULE = "test-moves.gcode", "schedule.json"
MOST_STEPS = 200
LONGEST_HOLD = 60.0
"""Of one step [s]: more tells nothing more."""
LONGEST = 3600.0
"""Of all steps [s]: nobody stays by the printer for longer."""
ASSUMED = ("print.bed", "motion.acceleration")
"""Keys of the brief that have to be true for the moves to be what they say."""
SLOWEST = 0.5
"""Of the brief's slowest speed: slower moves rattle, and resonances are met on the way up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Swept:
    """What was written, and what is said of it."""

    folder: Path
    told: words.Told
    copies: tuple[str, ...] = ()  # of moves that were planned otherwise

    @property
    def json(self) -> Json:
        """What is told as JSON."""
        return {
            "moves": str(self.folder / MOVES),
            "schedule": str(self.folder / SCHEDULE),
            **schedule_json(self.told.schedule),
            "warnings": list(self.told.left_out),
        }


def sweep(
    path: Path,
    out: Path,
    speeds: Sequence[float] = (),
    directions: Sequence[float] = (),
    hold: float = HOLD,
    *,
    middle: bool = False,
    changes: Sequence[Change] = (),
) -> Swept:
    """Write test moves and their schedule into `out`/<slug>-moves/.

    `speeds` [m/s], or what the brief's suggest; `directions` [rad], or the usual ones; `hold` [s]
    is how long each speed is kept. Moves that stood there and were others stay as dated copies:
    somebody may have recorded them. `middle`: the bed's middle is the printer's zero, not its front
    left corner. Raises InputError for a brief at fault, speeds that the bed is too small for, moves
    that take too long, or a place that is taken.
    """
    if hold > LONGEST_HOLD:
        got, most = words.seconds(hold), words.seconds(LONGEST_HOLD)
        raise refused(COMMAND_LINE, "--hold", got, f"{most} or less", words.hold_advice())
    brief = read_brief(path, changes)
    bed = _bed(brief, middle)
    acceleration = brief.motion.acceleration
    angles = tuple(round(math.degrees(each), 6) for each in directions) or DIRECTIONS
    warnings = [words.assumed(each) for each in brief.assumed if each.key in ASSUMED]
    warnings += [words.short_hold(hold)] if hold < HOLD else []
    asked = tuple(speeds) or usual_speeds(brief.motion.speeds)
    wrong = {}
    for speed in asked:
        kept, at = min((steady(bed, acceleration, speed, angle), angle) for angle in angles)
        if kept < SHORTEST:
            wrong[speed] = (at, kept)
    if speeds or len(wrong) == len(asked):
        _refuse(wrong)
    warnings += [words.left_out(speed, *found) for speed, found in wrong.items()]
    taken = tuple(sorted({*asked} - wrong.keys()))
    if len(taken) * len(angles) > MOST_STEPS:
        got = f"{len(taken)} speeds along {len(angles)} lines"
        wanted = f"{MOST_STEPS} steps or fewer"
        raise refused(COMMAND_LINE, "--speeds", got, wanted, "take a wider step")
    moves = plan_moves(bed, acceleration, taken, angles, hold)
    if moves.schedule.length > LONGEST:
        got = f"moves that take {words.minutes(moves.schedule)}"
        wanted, advice = (
            "an hour or less",
            "take a shorter --hold, fewer speeds or fewer directions",
        )
        raise refused(COMMAND_LINE, "--hold", got, wanted, advice)
    told = words.Told(
        name=brief.name,
        layout=brief.motion.layout,
        acceleration=acceleration,
        bed=bed,
        middle=middle,
        speeds=taken,
        directions=angles,
        schedule=moves.schedule,
        left_out=tuple(warnings),
    )
    head = "".join(f"; {line}".rstrip() + "\n" for line in words.head_lines(told))
    text = head + "".join(f"{line}\n" for line in gcode_lines(moves))

    def write(fresh: Path) -> None:
        (fresh / MOVES).write_text(text, encoding="ascii", newline="\n")
        write_json(fresh / SCHEDULE, schedule_json(moves.schedule))
        # recordings of earlier moves need their own schedule
        write_manifest(fresh, {"name": brief.name, "version": version()}, earlier=[MOVES, SCHEDULE])

    origin = replace(origin_of(brief.name, path), held=brief_source(path, changes))
    done = publish(out, f"{brief.slug}-moves", write, origin)
    return Swept(folder=done.folder, told=told, copies=done.copies)


def usual_speeds(asked: Sequence[float]) -> tuple[float, ...]:
    """Return the speeds [m/s] of a sweep: those asked about, and round steps below and between.

    >>> [round(1e3 * each) for each in usual_speeds((0.06, 0.15, 0.067))]
    [30, 40, 50, 60, 67, 70, 80, 90, 100, 110, 120, 130, 140, 150]
    """
    low, high = SLOWEST * min(asked), max(asked)
    step = usual_step(high - low)
    between = np.arange(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9) + 1) * step
    return tuple(sorted({round(float(each), 9) for each in (*asked, *between)}))


def _bed(brief: Brief, middle: bool) -> Bed:
    """Return where the tool may go over a brief's bed; raises InputError for one without room."""
    wide, deep, high = brief.print.bed
    zero = Point(-wide / 2.0, -deep / 2.0) if middle else Point(0.0, 0.0)
    margin = max(MARGIN, brief.print.bed_margin)
    if min(wide, deep) <= 4.0 * margin or high <= 2.0 * LIFT:
        told = " x ".join(f"{1e3 * side:g}" for side in brief.print.bed)
        room = f"more than {4e3 * margin:g} mm both ways and {2e3 * LIFT:g} mm high"
        advice = "tell the true bed, width, depth and height"
        raise refused(printable(brief.source_file), "print.bed", f"{told} mm", room, advice)
    return Bed(size=(wide, deep), zero=zero, margin=margin)


def _refuse(wrong: dict[float, tuple[float, float]]) -> None:
    """Raise InputError for every speed that the bed is too small for."""
    faults = []
    for speed, found in wrong.items():
        got, wanted, advice = words.too_fast(speed, *found)
        faults.append(
            Fault(file=COMMAND_LINE, key="--speeds", got=got, wanted=wanted, suggestion=advice)
        )
    if faults:
        raise InputError(faults)
