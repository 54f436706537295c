"""`isolator orders`: the order map of a recording, what stands still in it, and rattle."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from isolator.brief import read_brief
from isolator.commands.moves_found import AIR, find_moves, joint_band, usual_place
from isolator.commands.moves_told import publish_told
from isolator.measuring.beats import beating
from isolator.measuring.energies import take
from isolator.measuring.loud_speeds import levels, loud_speeds
from isolator.measuring.order_map import map_of, ridges
from isolator.measuring.rattle import can_hear, rattles
from isolator.measuring.still import hums, resonances
from isolator.physics.joints.fits import has_bushing, play
from isolator.reading.faults import refused
from isolator.reading.printable import printable
from isolator.recordings.options import ReadOptions
from isolator.recordings.schedule import read_schedule
from isolator.report.figures.order_map import order_picture
from isolator.report.json.orders import orders_json
from isolator.report.json.values import Json
from isolator.report.sentences.orders_text import Told, orders_lines
from isolator.vibration.drives import belt_motors


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapped:
    """What was found, and the folder that it lies in."""

    told: Told
    folder: Path
    copies: tuple[str, ...]  # of what other recordings told

    @property
    def json(self) -> Json:
        """What is told as JSON."""
        return {**orders_json(self.told), "folder": str(self.folder)}


def orders(
    file: Path,
    schedule: Path,
    out: Path,
    brief: Path,
    options: ReadOptions | None = None,
    place: str = "",
    *,
    rail: float | None = None,
    bore: float | None = None,
) -> Mapped:
    """Tell what in a recording of the moves follows the speed, and write it into `out`.

    `rail` and `bore` [m] of round rails and their bearings, as measured. Raises InputError for
    files that cannot be read or do not hold the moves.
    """
    read, moves = read_brief(brief), read_schedule(schedule)
    found = find_moves(file, moves, schedule, options)
    place = place or usual_place(found.recording.unit)
    band = joint_band([found.recording.verdict.usable_hz], place == AIR)
    own = take(found.evened, found.aligned, moves, band, place == AIR)
    motion = read.motion
    if not own.steps:
        got, advice = "no step that is recorded whole", "record without long gaps"
        wanted = f"the steps of {printable(str(schedule))}"
        raise refused(printable(str(file)), "", got, wanted, advice)
    mapped = map_of(own, motion)
    lines = ridges(mapped, motion)
    belts = [belt for belt, _ in belt_motors(motion, read.motors)]
    rail = motion.rail_diameter if rail is None else rail
    no_bore = rail is not None and bore is None and not has_bushing(rail)
    told = Told(
        name=read.name,
        place=place,
        band=band,
        verdict=found.recording.verdict,
        evened=found.evened,
        aligned=found.aligned,
        automatic=own.gain().automatic,
        map=mapped,
        ridges=lines,
        resonances=resonances(mapped, lines),
        hums=hums(own),
        levels=levels(mapped),
        avoid=loud_speeds(mapped, lines),
        beats=frozenset(direction for _, direction in beating(motion, belts, mapped.keys)),
        rattles=rattles(own, motion) if can_hear(own) else (),
        heard_rattle=can_hear(own),
        play=None if rail is None or no_bore else play(rail, bore),
        no_bore=rail if no_bore else None,
    )

    texts = {
        "order-map.svg": order_picture(told),
        "orders.txt": "\n".join(orders_lines(told)) + "\n",
    }
    result: Json = {"orders": orders_json(told)}
    done = publish_told(out, f"{read.slug}-orders", read.name, texts, result)
    return Mapped(told=told, folder=done.folder, copies=done.copies)
