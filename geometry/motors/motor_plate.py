"""Plain plate that stands a belt motor back from its bracket by a given height."""

from __future__ import annotations

from geometry.solids import features
from geometry.solids.fasteners import THREADS
from geometry.solids.outline import Outline, chamfered_volume, disc
from geometry.solids.part import CannotDraw, Part, layer_notes, mm
from isolator.design import MotorSpacer, PrintSettings
from isolator.design.damper import PILOT_PLAY, PLATE_CORNER
from isolator.design.faceplates import FACEPLATES, Faceplate
from isolator.design.naming import slug

CORNER = mm(PLATE_CORNER)


def faceplate(part: str, frame_size: int) -> Faceplate:
    """Return the motor face for a frame size; `part` is named where there is none."""
    if frame_size not in FACEPLATES:
        offered = ", ".join(str(size) for size in FACEPLATES)
        raise CannotDraw(part, "frame_size", f"{frame_size} is not among {offered}")
    return FACEPLATES[frame_size]


def motor_plate(spacer: MotorSpacer, settings: PrintSettings) -> Part:
    """Return the plate: the motor's outline, its four screws and a hole that clears the boss."""
    name = slug(spacer.name, "motor-plate")
    settings = settings.for_filament(spacer.filament)
    face = faceplate(name, spacer.frame_size)
    height, chamfer = mm(spacer.height), mm(settings.first_layer_chamfer)
    if height <= chamfer:
        raise CannotDraw(
            name, "height", f"{height:g} mm is not more than its {chamfer:g} mm chamfer"
        )
    side = mm(face.body)
    core = side - 2 * CORNER
    outline = Outline(core_x=core, core_y=core, offset=CORNER)
    pilot = mm(face.pilot) + mm(PILOT_PLAY) + mm(settings.hole_compensation)
    # a plain plate on a flange lets M4 and M5 through alike
    clear = THREADS[5.0].clearance if face.flange > 0 else mm(face.screw_clearance)
    screw = clear + mm(settings.hole_compensation)
    at = mm(face.bolt_square) / 2
    cutters = [features.hole(pilot, -1.0, height + 1.0)]
    for y in (-at, at):
        cutters += [features.hole(screw, -1.0, height + 1.0, x, y) for x in (-at, at)]
    mouth = min(features.RELIEF, height / 2)
    cutters += [features.relief(disc(screw), mouth, x, y) for x in (-at, at) for y in (-at, at)]
    cutters.append(features.relief(disc(pilot), mouth))
    long, longer = mm(spacer.motor_screw), f"screws longer by {height:g} mm"
    screws = f"four screws M{mm(face.screw):g} x {long:g}" if long else longer
    holes = features.hole_area(pilot) + 4 * features.hole_area(screw)
    return Part(
        name=name,
        owner=spacer.name,
        role="motor-plate",
        quantity=1,
        solid=features.cut_all(features.prism(outline, 0.0, height, chamfer), *cutters),
        material=spacer.filament,
        orientation="as drawn: either large face on the bed",
        notes=(
            f"between motor and bracket; {screws}",
            *layer_notes(settings.layer, plate=height),
        ),
        box=(side, side, height),
        volume=chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height)
        - 4 * features.relief_volume(disc(screw), mouth)
        - features.relief_volume(disc(pilot), mouth)
        - holes * height,
        loaded=(),
        places=(),
    )
