"""From a design to its printable parts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from geometry.feet.ball_foot import ball_parts
from geometry.feet.buffer_foot import buffer_parts
from geometry.feet.cup_foot import cup_parts
from geometry.feet.printed_foot import printed_parts
from geometry.feet.slab import bare_parts
from geometry.feet.slab_lips import lip_parts
from geometry.feet.tread import tread_part
from geometry.motors.damper_parts import damper_parts
from geometry.motors.motor_plate import motor_plate
from geometry.motors.pulley_gauge import pulley_gauge
from geometry.motors.pulley_spacer import pulley_spacer
from geometry.solids.outline import pad_outlines
from geometry.solids.part import CannotDraw, Part, Placement, brim_notes, mm
from geometry.solids.verify import verify
from isolator.design import Design, Foot, MotorSpacer, PrintSettings
from isolator.design.naming import slug

LARGEST_CHAMFER = 1.0  # more is no guard against a spread first layer [mm]

DRAWN = {
    "cup": cup_parts,
    "printed": printed_parts,
    "ball": ball_parts,
    "buffer": buffer_parts,
}
"""What draws the parts of each kind of foot that is printed."""

Progress = Callable[[str], None]


def draw(design: Design, progress: Progress | None = None) -> list[Part]:
    """Return every part of the design, verified, each once with its quantity.

    `progress` is told the name of each part as it is done. Raises CannotDraw where a part cannot
    be drawn as asked; nothing is returned then.
    """
    parts: list[Part] = []
    for foot in design.feet:
        parts += _checked(foot_parts(foot, design.print), design.print, progress)
    parts += _checked(lip_parts(design), design.print, progress)
    parts += _checked(_shared(design.motor_spacers, design.print), design.print, progress)
    if design.motor_dampers:
        _require_thin_chamfer(design)
        parts += _checked(damper_parts(design.motor_dampers, design.print), design.print, progress)
    _require_own_names(parts)
    return [replace(part, notes=(*brim_notes(part.box), *part.notes)) for part in parts]


def foot_parts(foot: Foot, settings: PrintSettings) -> list[Part]:
    """Return the parts of one kind of foot, not yet verified."""
    if not foot.positions:
        raise CannotDraw(slug(foot.name), "positions", "the foot stands nowhere")
    if not foot.pad.outline.halved:  # which knows what a ball may be
        _require_pad(foot)
    if not foot.build.hung:
        return bare_parts(foot, settings)
    _require_chamfer(foot, settings)
    tread = tread_part(foot, settings)
    found = [*DRAWN[foot.kind](foot, settings), *([] if tread is None else [tread])]
    if foot.lift == 0:
        return found
    return [
        replace(part, places=tuple(_lowered(at, mm(foot.lift)) for at in part.places))
        for part in found
    ]


def _lowered(place: Placement, by: float) -> Placement:
    """Return a place `by` lower, as a stud holds its foot off the frame."""
    return replace(place, z=place.z - by)


def _require_pad(foot: Foot) -> None:
    outer, inner = pad_outlines(foot.pad)
    if inner is not None and inner.offset * 2 >= min(outer.size):
        raise CannotDraw(
            slug(foot.name),
            "pad.second",
            f"the pad's hole of {inner.size[0]:g} mm is not inside its {outer.size[0]:g} mm",
        )


def _require_chamfer(foot: Foot, settings: PrintSettings) -> None:
    """Refuse a chamfer that would take more than an edge: what it cuts must be there."""
    soft = settings.for_filament(foot.pad.material) if foot.build.soft_body else settings
    chamfer = mm(max(settings.first_layer_chamfer, soft.first_layer_chamfer))
    rooms = [
        ("an edge on the bed", LARGEST_CHAMFER),
        ("the cap", mm(foot.cap)),
    ]
    if foot.sole > 0:
        rooms.append(("the sole", mm(foot.sole)))
    if foot.build.rimmed:
        rooms.append(("rim and side room", mm(foot.wall) + mm(foot.side_room)))
    for name, room in rooms:
        if chamfer >= room:
            raise CannotDraw(
                slug(foot.name),
                "first_layer_chamfer",
                f"{chamfer:g} mm does not fit {name}, {room:g} mm",
            )


def _require_thin_chamfer(design: Design) -> None:
    drawn = (design.print.for_filament(each.filament) for each in design.motor_dampers)
    chamfer = mm(max(each.first_layer_chamfer for each in drawn))
    if chamfer >= LARGEST_CHAMFER:
        raise CannotDraw(
            slug(design.motor_dampers[0].name, "damper"),
            "first_layer_chamfer",
            f"{chamfer:g} mm does not fit an edge on the bed, {LARGEST_CHAMFER:g} mm",
        )


def motor_parts(spacer: MotorSpacer, settings: PrintSettings) -> list[Part]:
    """Return one motor's plate and its pulley's spacer or gauge; what has no height is left out."""
    parts = []
    if spacer.height > 0:
        parts.append(motor_plate(spacer, settings))
    if spacer.pulley_spacer > 0:
        parts.append((pulley_gauge if spacer.gauge else pulley_spacer)(spacer, settings))
    return parts


def _checked(parts: list[Part], settings: PrintSettings, progress: Progress | None) -> list[Part]:
    for part in parts:
        verify(part, settings)
        if progress is not None:
            progress(part.name)
    return parts


def _shared(spacers: tuple[MotorSpacer, ...], settings: PrintSettings) -> list[Part]:
    """Return the motors' parts, each once for all the motors that it fits."""
    plates: dict[tuple[object, ...], list[MotorSpacer]] = {}
    rings: dict[tuple[object, ...], list[MotorSpacer]] = {}
    forks: dict[tuple[object, ...], list[MotorSpacer]] = {}
    for one in spacers:
        screwed = (one.frame_size, one.height, one.motor_screw, one.filament)
        plates.setdefault(screwed, []).append(one)
        if one.gauge:
            fork = (one.pulley_spacer, one.bore, one.boss, one.boss_height)
            forks.setdefault((*fork, one.frame_size, one.filament), []).append(one)
        else:
            nose = (one.nose, one.nose_height, one.filament)
            ring = (one.pulley_spacer, one.bore, one.outer, *nose)
            rings.setdefault(ring, []).append(one)
    parts = []
    kinds = (("motor-plate", plates), ("pulley-spacer", rings), ("pulley-gauge", forks))
    for kind, groups in kinds:
        for group in groups.values():
            names = [each.name for each in group]
            told = ", ".join(names)
            parts += [
                replace(
                    part,
                    name=slug(*names, kind),
                    owner=told,
                    quantity=1 if kind == "pulley-gauge" else len(group),
                    notes=(*part.notes, f"for {told}"),
                )
                for part in motor_parts(group[0], settings)
                if part.role == kind
            ]
    return parts


def _require_own_names(parts: list[Part]) -> None:
    seen: set[str] = set()
    for part in parts:
        if part.name in seen:
            raise CannotDraw(part.name, "name", "two parts would be written under this name")
        seen.add(part.name)
