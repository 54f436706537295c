"""The drawing sheet written as TOML with comments."""

from __future__ import annotations

from typing import Any

import tomlkit
from tomlkit.items import Table

from isolator.design import ATTACHMENTS, KINDS, Design, Foot
from isolator.design.attachment import FIXINGS
from isolator.design.damper import DAMPER_SHAPES
from isolator.reading.units import format_quantity

_DIGITS = 9
_DUST = 1e-12  # [m, rad]; what is left of a difference of equal numbers
_COUNTS = ("frame_size", "layers", "points")  # numbers that are no lengths
_ANGLES = ("wedge_angle",)

_PAD_COMMENTS = {
    "first": "disc or ring: outer diameter; rectangle: x side; square-with-hole: side",
    "second": "ring or square-with-hole: diameter of the hole; rectangle: y side; disc: 0 mm",
    "thickness": "free height, all layers",
    "material": "id of the material card",
}
_FOOT_COMMENTS = {
    "kind": f"one of {', '.join(KINDS)}",
    "attachment": f"one of {', '.join(ATTACHMENTS)}",
    "bolt": "thread diameter; 0 mm takes the usual one",
    "tube": "inner diameter of the tube, for tube-end",
    "cap": "solid height between frame and pad",
    "sole": "solid height between pad and desk",
    "wall": "thickness of the rim",
    "side_room": "free gap round the unloaded pad",
    "sag": "compression of the pad under the usual load",
    "stop": "compression of the pad at which the rim touches what is below",
}
_MORE_COMMENTS = {
    "rod": "outer diameter of the rod, for rod-end",
    "grip": "thickness of the frame that the screws go through; 0 mm: not known",
    "fixing": f"what the cap holds of bolt or panel: one of {', '.join(FIXINGS)}",
    "along": "which way the slot runs: x or y",
    "key": "width of the slot that a loose key guides in; 0 mm: no key",
    "tread": "thickness of the flexible tread glued under the sole; 0 mm: none",
    "label": "engraved text",
}
_SLAB_COMMENTS = {
    "size": "width, depth, thickness",
    "position": "of its middle",
    "gap": "from the printer's underside down to its upper face",
    "lip": "height of the printed corners over its upper face; 0 mm: none",
}
_SPACER_COMMENTS = {
    "height": "of the plate between motor and bracket; 0 mm: none",
    "pulley_spacer": "height of the ring between motor face and pulley; 0 mm: none",
    "bore": "diameter of the motor shaft",
    "outer": "outer diameter of the ring",
}
_DAMPER_COMMENTS = {
    "position": "of the motor body's centre as built now",
    "axis": "of the shaft: x, y or z",
    "points": "1: the shaft points along its axis; -1: against it",
    "body": "length of the motor's body",
    "shaft": "length of the shaft from the motor's face",
    "pull": "which way the belts pull, a vector of length 1 across the shaft",
    "shape": f"of the rubber: {' or '.join(DAMPER_SHAPES)}",
    "first": "ring: outer diameter; pads: length across the radius",
    "second": "ring: inner diameter; pads: width along the radius",
    "circle": "pads: from the shaft to the middle of each; ring: 0 mm",
    "rubber": "thickness of the rubber, all of it",
    "material": "id of the material card",
    "cast": "true: cast in a mould; false: cut from sheet",
    "motor_plate": "thickness of the plate at the motor",
    "frame_plate": "thickness of the plate at the bracket",
    "wedge": "thickness of the wedge at the shaft's axis; 0 mm: none",
    "wedge_angle": "by which the wedge tilts the motor against the pull",
    "bracket": "thickness of the printer's bracket",
    "travel": "farthest that one plate moves sideways against the other",
    "motor_screw": "length of each of the two screws into the motor",
    "frame_screw": "length of each of the two screws through the bracket",
    "pulley_spacer": "height of the ring between motor face and pulley; 0 mm: none",
    "bore": "diameter of the motor shaft",
    "outer": "outer diameter of the ring",
    "filament": "of the plates and the wedge",
}
_PRINT_COMMENTS = {
    "hole_compensation": "added to every hole's diameter",
    "first_layer_chamfer": "drawn in at the bed against the first layer's spread",
}


def write_design(design: Design) -> str:
    """Return the design as TOML with comments; `read_design` gives the same design back."""
    file = tomlkit.document()
    file.add(tomlkit.comment("Drawing sheet. Edit it and draw again: isolator draw design.toml"))
    file.add(tomlkit.comment("x to the right, y to the back; origin in the middle of the feet"))
    for key in ("name", "slug", "version"):
        file.add(key, getattr(design, key))
    file.add("frame_size", tomlkit.item([length(side) for side in design.frame_size]))
    table = _table(design.print, ("nozzle", "layer", *_PRINT_COMMENTS), _PRINT_COMMENTS)
    table.add("bed", [length(side) for side in design.print.bed])
    table.add("material", design.print.material)
    table.add("flexible", design.print.flexible)
    file.add("print", table)
    if design.slab is not None:
        file.add("slab", _table(design.slab, tuple(_SLAB_COMMENTS), _SLAB_COMMENTS))
    feet, spacers, dampers = tomlkit.aot(), tomlkit.aot(), tomlkit.aot()
    for foot in design.feet:
        feet.append(_foot_table(foot))
    for spacer in design.motor_spacers:
        spacers.append(_table(spacer, ("name", "frame_size", *_SPACER_COMMENTS), _SPACER_COMMENTS))
    for damper in design.motor_dampers:
        dampers.append(_table(damper, ("name", "frame_size", *_DAMPER_COMMENTS), _DAMPER_COMMENTS))
    if design.feet:
        file.add("foot", feet)
    if design.motor_spacers:
        file.add("motor_spacer", spacers)
    if design.motor_dampers:
        file.add("motor_damper", dampers)
    return tomlkit.dumps(file)


def length(value: float) -> str:
    """Return a length [m] as it stands in the file, to a billionth part; none below a picometre."""
    return format_quantity(value if abs(value) > _DUST else 0.0, "mm", _DIGITS)


def angle(value: float) -> str:
    """Return an angle [rad] as it stands in the file, to a billionth part."""
    return format_quantity(value if abs(value) > _DUST else 0.0, "deg", _DIGITS)


def _table(source: Any, keys: tuple[str, ...], comments: dict[str, str]) -> Table:
    """Return a table of a dataclass's fields, each with its comment if it has one."""
    table = tomlkit.table()
    for key in keys:
        item = tomlkit.item(_written(key, getattr(source, key)))
        if key in comments:
            item.comment(comments[key])
        table.add(key, item)
    return table


def _written(key: str, value: Any) -> Any:
    """Return what stands in the file for a field: a length where it is a plain float."""
    if isinstance(value, (str, bool)) or key in _COUNTS:
        return value
    if isinstance(value, tuple):
        return list(value) if key == "pull" else [length(each) for each in value]
    return angle(value) if key in _ANGLES else length(value)


def _foot_table(foot: Foot) -> Table:
    table = _table(foot, ("name", *_FOOT_COMMENTS), _FOOT_COMMENTS)
    places = tomlkit.array().multiline(True)
    for x, y in foot.positions:
        places.append([length(x), length(y)])
    table.add("positions", places)
    if foot.holes:
        table.add("holes", [[length(x), length(y)] for x, y in foot.holes])
    # what a foot has not is left out, so that the sheet stays short
    more = tuple(key for key in _MORE_COMMENTS if getattr(foot, key) not in (0.0, "", "screw", "x"))
    for key, item in _table(foot, more, _MORE_COMMENTS).items():
        table.add(key, item)
    pad = ("shape", "first", "second", "thickness", "layers", "material")
    table.add("pad", _table(foot.pad, pad, _PAD_COMMENTS))
    return table
