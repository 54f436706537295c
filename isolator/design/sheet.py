"""The keys of design.toml, each declared once, in the order in which they are written."""

from __future__ import annotations

from isolator.design import ATTACHMENTS, FOOT_KINDS, OUTLINES
from isolator.design.attachment import FIXINGS, asking
from isolator.design.axes import AXES
from isolator.design.damper import DAMPER_SHAPES
from isolator.design.ends import ENDS, PLAIN
from isolator.design.faceplates import FRAME_SIZES
from isolator.design.filaments import FILAMENTS
from isolator.design.paper import PAPERS
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED
from isolator.reading.keys import Key, by
from isolator.reading.number_keys import integer, number, pair, places, quantity, triple, vector
from isolator.reading.ordinary import Sign
from isolator.reading.table import Table, many, one
from isolator.reading.word_keys import choice, flag, text

MOST_PLACES = 100
MOST_HOLES = 12
MOST_LAYERS = 50


def _length(comment: str = "", *default: float, sign: Sign = "positive") -> Key[float]:
    """Return a length; what has a default is left out of the file where it is that."""
    return quantity("m", *default, sign=sign, comment=comment)


def _or_none(comment: str) -> Key[float]:
    """Return a length that may be zero."""
    return _length(comment, sign="not negative")


def _optional(comment: str) -> Key[float]:
    """Return a length that may be left out: zero then."""
    return _length(comment, 0.0, sign="not negative")


def _nose() -> Key[float]:
    return _optional("diameter of the ring's end on the bearing's inner ring; 0 mm: as outer")


def _nose_height() -> Key[float]:
    return _optional("height of that end, which carries the ring over the motor's boss")


def _boss() -> Key[float]:
    return _optional("diameter of the motor's boss; 0 mm: usual of the frame size")


def _boss_height() -> Key[float]:
    return _optional("height of the motor's boss; 0 mm: usual of the frame size")


def _gauge() -> Key[bool]:
    return flag(False, comment="true: no ring but a gauge, pulled out once the pulley is tight")


def _frame_size() -> Key[int]:
    return integer((FRAME_SIZES[0], FRAME_SIZES[-1]))


class FilamentFitTable(Table):
    """One [[print.fit]]."""

    filament = choice(tuple(FILAMENTS), comment="whose parts are drawn with these")
    hole_compensation = _or_none("")
    first_layer_chamfer = _or_none("")


class PrintTable(Table):
    """[print]."""

    nozzle = _length()
    layer = _length()
    hole_compensation = _or_none("added to every hole's diameter")
    first_layer_chamfer = _or_none("drawn in at the bed against the first layer's spread")
    bed = triple("m", sign="positive", names="width, depth and height")
    material = text()
    flexible = text("tpu-95")
    paper = choice(tuple(PAPERS), "a4", comment="that templates and drawings are printed on")
    wedge_layer = _optional("layer height of wedges, on plates of their own; 0 mm: as the rest")
    bed_margin = _length("left free along every edge of the bed", 8e-3, sign="not negative")
    fit = many(FilamentFitTable)


class SlabTable(Table):
    """[slab]."""

    size = triple(
        "m",
        sign="positive",
        names="width, depth and thickness",
        comment="width, depth, thickness",
    )
    position = pair("m", sign="any", comment="of its middle")
    gap = _or_none("from the printer's underside down to its upper face")
    lip = _or_none("height of the printed corners over its upper face; 0 mm: none")


class PadTable(Table):
    """[foot.pad]."""

    shape = by(
        lambda t: FOOT_KINDS[t.up.kind].cut_pad or FOOT_KINDS[t.up.kind].soft_body,
        choice(FOOT_KINDS["cup"].shapes),
        by(
            lambda t: FOOT_KINDS[t.up.kind].screwed_pad,
            choice(FOOT_KINDS["buffer"].shapes),
            choice(FOOT_KINDS["ball"].shapes),
        ),
    )
    first = _length("disc or ring: outer diameter; rectangle: x side; square-with-hole: side")
    second = by(
        lambda t: len(OUTLINES[t.shape].sizes) > 1 and not OUTLINES[t.shape].halved,
        _length(
            "ring or square-with-hole: diameter of the hole; rectangle: y side; buffer: height of "
            "its rubber; disc: 0 mm"
        ),
        _or_none(""),
    )
    thickness = _length("free height, all layers")
    layers = integer((1, MOST_LAYERS))
    material = text(comment="id of the material card")
    infill = number((0.0, 1.0), 0.0, comment="of a print: share of its volume; 0: not told")
    pattern = text("", most=40, comment="of the infill")
    wall = _optional("of a print: solid, all round its infill")


class EndsTable(Table):
    """[foot.ends]."""

    thread = _length("of the ready-made mount")
    upper = choice(tuple(each for each in ENDS if each != PLAIN), comment="at the printer")
    lower = choice(ENDS, comment=f"at the desk; one of {', '.join(ENDS)}")
    stud = _optional("length of a stud")
    depth = _optional("of a thread inside the mount")
    grade = text("", most=60, comment="what it is asked for as in a shop")


class FootTable(Table):
    """One [[foot]]."""

    name = text()
    kind = choice(tuple(FOOT_KINDS), comment=f"one of {', '.join(FOOT_KINDS)}")
    attachment = choice(tuple(ATTACHMENTS), comment=f"one of {', '.join(ATTACHMENTS)}")
    bolt = _or_none("thread diameter; 0 mm takes the usual one")
    tube = _or_none("inner diameter of the tube, for tube-end")
    cap = _length("solid height between frame and pad")
    # a ball stands on the desk by itself, and so does a bare pad
    sole = by(
        lambda t: FOOT_KINDS[t.kind].sole > 0,
        _length("solid height between pad and desk"),
        _or_none(""),
    )
    wall = _or_none("thickness of the rim")
    side_room = _or_none("free gap round the unloaded pad")
    sag = _or_none("compression of the pad under the usual load")
    stop = _or_none("compression of the pad at which the rim touches what is below")
    positions = places(1, MOST_PLACES)
    holes = places(0, MOST_HOLES, ())
    rod = _optional("outer diameter of the rod, for rod-end")
    grip = _optional("thickness of the frame that the screws go through; 0 mm: not known")
    fixing = choice(
        FIXINGS,
        "screw",
        comment=f"what the cap holds of {' or '.join(asking('fixing'))}: one of "
        f"{', '.join(FIXINGS)}",
    )
    along = choice(("x", "y"), "x", comment="which way the slot runs: x or y")
    key = _optional("width of the slot that a loose key guides in; 0 mm: no key")
    tread = _optional("thickness of the flexible tread glued under the sole; 0 mm: none")
    label = text("", most=40, comment="engraved text")
    pad = one(PadTable)
    ends = one(EndsTable)


class SpacerTable(Table):
    """One [[motor_spacer]]."""

    name = text()
    frame_size = _frame_size()
    height = _or_none("of the plate between motor and bracket; 0 mm: none")
    pulley_spacer = _or_none("height of the ring between motor face and pulley; 0 mm: none")
    bore = _length("diameter of the motor shaft")
    outer = _length("outer diameter of the ring")
    filament = text("asa", comment="of both")
    motor_screw = _optional("length of each of the four screws through the plate")
    nose = _nose()
    nose_height = _nose_height()
    boss = _boss()
    boss_height = _boss_height()
    gauge = _gauge()


class DamperTable(Table):
    """One [[motor_damper]]."""

    name = text()
    frame_size = _frame_size()
    position = triple("m", comment="of the motor body's centre as built now")
    axis = choice(AXES, comment="of the shaft: x, y or z")
    points = integer((-1, 1), comment="1: the shaft points along its axis; -1: against it")
    body = _length("length of the motor's body")
    shaft = _length("length of the shaft from the motor's face")
    pull = vector(
        (-1.0, 1.0), comment="which way the belts pull, a vector of length 1 across the shaft"
    )
    shape = choice(DAMPER_SHAPES, comment=f"of the rubber: {' or '.join(DAMPER_SHAPES)}")
    first = _length("ring: outer diameter; pads: length across the radius")
    second = _length("ring: inner diameter; pads: width along the radius")
    circle = _or_none("pads: from the shaft to the middle of each; ring: 0 mm")
    rubber = _length("thickness of the rubber, all of it")
    material = text(comment="id of the material card")
    cast = flag(comment="true: cast in a mould; false: cut from sheet")
    motor_plate = _length("thickness of the plate at the motor")
    frame_plate = _length("thickness of the plate at the bracket")
    wedge = _or_none("thickness of the wedge at the shaft's axis; 0 mm: none")
    wedge_angle = quantity(
        "rad", sign="not negative", comment="by which the wedge tilts the motor against the pull"
    )
    bracket = _length("thickness of the printer's bracket")
    travel = _or_none("farthest that one plate moves sideways against the other")
    motor_screw = _length("length of each of the two screws into the motor")
    frame_screw = _length("length of each of the two screws through the bracket")
    pulley_spacer = _or_none("height of the ring between motor face and pulley; 0 mm: none")
    bore = _length("diameter of the motor shaft")
    outer = _length("outer diameter of the ring")
    filament = text(comment="of what is printed of it")
    nose = _nose()
    nose_height = _nose_height()
    boss = _boss()
    boss_height = _boss_height()
    density = quantity("kg/m^3", 0.0, sign="not negative", comment="of the rubber as it is poured")
    gauge = _gauge()
    plates = choice(
        tuple(PLATE_KINDS), PRINTED, comment="printed, or cut of sheet steel or aluminium"
    )
    bought = text("", comment="what it is called where it is bought ready-made; empty: made")
    found = text("", comment="where a bought one is got")
    mass = quantity("kg", 0.0, sign="not negative", comment="of a bought one; 0 kg: not known")


class DesignTable(Table):
    """The whole file."""

    name = text()
    slug = text(most=60)
    version = text()
    frame_size = triple("m", sign="positive")
    print = one(PrintTable)
    slab = one(SlabTable)
    foot = many(FootTable)
    motor_spacer = many(SpacerTable)
    motor_damper = many(DamperTable)
