"""`isolator orders`: the order map of a recording, what stands still in it, and rattle."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from isolator.brief import read_brief
from isolator.commands.compare import AIR, DESK
from isolator.commands.manifest import Origin, write_json, write_manifest
from isolator.commands.moves_found import find_moves, joint_band
from isolator.commands.output import publish
from isolator.design.version import version
from isolator.measuring.energies import take
from isolator.measuring.loud_speeds import levels, loud_speeds
from isolator.measuring.order_map import map_of, ridges
from isolator.measuring.rattle import can_hear, rattles
from isolator.measuring.still import hums, resonances
from isolator.physics.joints.fits import has_bushing, play
from isolator.reading.faults import refused
from isolator.reading.printable import printable
from isolator.recordings.options import ReadOptions
from isolator.recordings.recording import FULL_SCALE
from isolator.recordings.schedule import read_schedule
from isolator.report.figures.order_map import order_picture
from isolator.report.json.orders import orders_json
from isolator.report.json.values import Json
from isolator.report.sentences.orders_text import Told, orders_lines


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapped:
    """What was found, and the folder that it lies in."""

    told: Told
    folder: Path

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
    place = place or (AIR if found.recording.unit == FULL_SCALE else DESK)
    band = joint_band([found], place == AIR)
    own = take(found.evened, found.aligned, moves, band, place == AIR)
    motion = read.motion
    if not own.steps:
        got, advice = "no step that is recorded whole", "record without long gaps"
        wanted = f"the steps of {printable(str(schedule))}"
        raise refused(printable(str(file)), "", got, wanted, advice)
    mapped = map_of(own, motion)
    lines = ridges(mapped, motion)
    rail = motion.rail_diameter if rail is None else rail
    no_bore = rail is not None and bore is None and not has_bushing(rail)
    told = Told(
        name=read.name,
        place=place,
        band=band,
        aligned=found.aligned,
        map=mapped,
        ridges=lines,
        resonances=resonances(mapped, lines),
        hums=hums(own),
        levels=levels(mapped),
        avoid=loud_speeds(mapped, lines),
        rattles=rattles(own, motion) if can_hear(own) else (),
        heard_rattle=can_hear(own),
        play=None if rail is None or no_bore else play(rail, bore),
        no_bore=rail if no_bore else None,
    )

    def write(fresh: Path) -> None:
        (fresh / "order-map.svg").write_text(order_picture(told), encoding="utf-8")
        (fresh / "orders.txt").write_text("\n".join(orders_lines(told)) + "\n", encoding="utf-8")
        write_json(fresh / "result.json", {"orders": orders_json(told)})
        write_manifest(fresh, {"name": read.name, "version": version()})

    origin = Origin(name=read.name, file=None, held=b"")
    folder = publish(out, f"{read.slug}-orders", write, origin).folder
    return Mapped(told=told, folder=folder)
