"""Reading what bounds a design: [limits], [stock], [print], [room]."""

from __future__ import annotations

import math

from isolator.brief.feet import read_path
from isolator.brief.fit import WHY, Fit
from isolator.brief.limits import Ball, Limits, Owned, Print, Room, Stock
from isolator.design import BALL, SHAPES
from isolator.design.filaments import RIGID
from isolator.physics.rubber.ball import THINNEST
from isolator.reading.table import Section
from isolator.reading.units import format_quantity

MOST_WIDTHS = 200
CONVENTION = "convention, no source"
PRACTICE = "common practice, no source"


def read_limits(section: Section) -> Limits:
    """Return the limits of a brief."""
    strain = gain = None
    if section.has("static_strain"):
        strain = section.number("static_strain", None, within=(0.01, 0.8))
    else:
        section.notes.assume(section.path("static_strain"), "each card's own", "none was given")
    if section.has("min_insertion_loss_db"):
        gain = section.number("min_insertion_loss_db", None, within=(0.0, 60.0), usual=(0.0, 20.0))
    strokes = section.quantities(
        "strokes", "m", (0.001, 0.1), "infill strokes of small and large prints", lengths=(2,)
    )
    if strokes[0] >= strokes[1]:
        section.notes.fault(
            section.path("strokes"), "the longer first", "the shorter first", "turn them round"
        )
    limits = Limits(
        sway=section.quantity("sway", "m", 5e-4, CONVENTION, usual=(5e-5, 3e-3)),
        static_strain=strain,
        foot_height=section.quantity("foot_height", "m", 0.05, CONVENTION, usual=(0.01, 0.1)),
        foot_width=section.quantity("foot_width", "m", 0.07, CONVENTION, usual=(0.02, 0.15)),
        tip_margin=section.number("tip_margin", 1.5, CONVENTION, within=(1.0, 10.0)),
        slip_margin=section.number("slip_margin", 1.5, CONVENTION, within=(1.0, 10.0)),
        desk_friction=section.number(
            "desk_friction", 0.5, "rubber on a table top; estimated", within=(0.05, 2.0)
        ),
        gravity_share=section.number("gravity_share", 0.25, CONVENTION, within=(0.01, 0.9)),
        promise_ceiling_db=section.number(
            "promise_ceiling_db", 30.0, "frames and desks bend above it", within=(1.0, 60.0)
        ),
        min_insertion_loss_db=gain,
        strokes=(strokes[0], strokes[1]),
    )
    section.done()
    return limits


def read_stock(section: Section) -> Stock:
    """Return the stock of a brief."""
    widths = section.triple(
        "widths", "m", (0.014, 0.06, 0.002), "what a knife and a punch can cut", sign="positive"
    )
    smallest, largest, step = widths
    if smallest > largest or (largest - smallest) / step > MOST_WIDTHS:
        section.notes.fault(
            section.path("widths"),
            ", ".join(format_quantity(width, "mm") for width in widths),
            f"smallest, largest and step, in at most {MOST_WIDTHS} steps",
            'write it like ["14 mm", "60 mm", "2 mm"]',
        )
    thicknesses: tuple[float, ...] = ()
    if section.has("thicknesses"):
        thicknesses = section.quantities("thicknesses", "m", lengths=range(1, 21))
    else:
        section.notes.assume(
            section.path("thicknesses"), "those each card is sold in", "none was given"
        )
    stock = Stock(
        materials=section.texts("materials", "all cards", "none was given"),
        shapes=section.choices("shapes", (*SHAPES, BALL), SHAPES, "all that can be drawn"),
        widths=widths,
        thicknesses=thicknesses,
        max_layers=section.integer("max_layers", 4, CONVENTION, within=(1, 10)),
        cards=read_path(section, "cards", folder=True),
        owned=tuple(_read_owned(each) for each in section.sections("owned")),
        balls=tuple(_read_ball(each) for each in section.sections("ball")),
    )
    if BALL in stock.shapes and not stock.balls and section.notes.clean(section.path("ball")):
        section.notes.fault(
            section.path("shapes"),
            f'"{BALL}" without a ball',
            "one [[stock.ball]] or more",
            "tell the balls that you have, or leave it out",
        )
    section.done()
    return stock


def _read_owned(section: Section) -> Owned:
    owned = Owned(
        item=section.text("item"), quantity=section.number("quantity", None, within=(0.0, 1e6))
    )
    section.done()
    return owned


def _read_ball(section: Section) -> Ball:
    diameter = section.quantity("diameter", "m", usual=(0.02, 0.07))
    wall = section.quantity("wall", "m", diameter / 2.0, "a solid one")
    if wall > diameter / 2.0 * (1.0 + 1e-9):
        section.notes.fault(
            section.path("wall"),
            format_quantity(wall, "mm"),
            f"no more than half of {format_quantity(diameter, 'mm')}",
            "half of the diameter is a solid ball",
        )
    if wall < THINNEST * diameter / 2.0 * (1.0 - 1e-9):
        section.notes.fault(
            section.path("wall"),
            format_quantity(wall, "mm"),
            f"no less than {format_quantity(THINNEST * diameter / 2.0, 'mm')}",
            "a thinner wall buckles inwards; take a thicker ball",
        )
    ball = Ball(diameter=diameter, wall=wall, material=section.text("material"))
    section.done()
    return ball


def read_print(section: Section, fit: Fit) -> Print:
    """Return how the user prints parts; `fit` rules where this table is silent."""
    bed = section.triple("bed", "m", (0.22, 0.22, 0.22), "a middling printer", sign="positive")
    nozzle = section.quantity("nozzle", "m", 4e-4, "the usual nozzle", usual=(2e-4, 1e-3))
    layer = section.quantity("layer", "m", 2e-4, "the usual layer", usual=(8e-5, 6e-4))
    found = Print(
        bed=bed,
        nozzle=nozzle,
        layer=layer,
        hole_compensation=_fitted(
            section, "hole_compensation", fit.hole_compensation, 2e-4, (0.0, 6e-4)
        ),
        first_layer_chamfer=_fitted(
            section, "first_layer_chamfer", fit.first_layer_chamfer(layer), 4e-4, (0.0, 1e-3)
        ),
        material=section.choice("material", RIGID, "petg", PRACTICE),
        flexible_material=section.text("flexible_material", "tpu-95", "the usual one"),
        motor_material=section.choice(
            "motor_material", RIGID, "asa", "stands a warm motor; common practice, no source"
        ),
    )
    if found.layer > found.nozzle:
        section.notes.fault(
            section.path("layer"),
            format_quantity(found.layer, "mm"),
            f"no more than the nozzle, {format_quantity(found.nozzle, 'mm')}",
            "check both",
        )
    section.done()
    return found


def _fitted(
    section: Section, name: str, fitted: float | None, default: float, usual: tuple[float, float]
) -> float:
    """Return what is typed, else what follows from the coupon, else the default [m]."""
    typed = section.has(name)
    if fitted is None:
        return section.quantity(name, "m", default, PRACTICE, sign="not negative", usual=usual)
    value = section.quantity(name, "m", fitted, WHY, sign="not negative", usual=usual)
    if typed and not math.isnan(value):
        section.notes.warn(
            section.path(name),
            f"{format_quantity(value, 'mm')} rules over the {format_quantity(fitted, 'mm')} that "
            "follows from [fit]; remove it to go by your fit coupon",
        )
    elif not typed and not usual[0] <= value <= usual[1]:
        low, high = (format_quantity(each, "mm") for each in usual)
        section.notes.warn(
            section.path(name),
            f"{format_quantity(value, 'mm')} from [fit] is outside the usual {low} to {high}; "
            "measure again",
        )
    return value


def read_room(section: Section) -> Room:
    """Return the room's temperatures."""
    why = "a room where people live"
    room = Room(
        temperature_low=section.quantity(
            "temperature_low", "degC", 15.0, why, sign="any", usual=(0.0, 35.0)
        ),
        temperature_high=section.quantity(
            "temperature_high", "degC", 30.0, why, sign="any", usual=(10.0, 50.0)
        ),
    )
    if room.temperature_low > room.temperature_high:
        section.notes.fault(
            section.path("temperature_low"),
            format_quantity(room.temperature_low, "degC"),
            f"no more than temperature_high, {format_quantity(room.temperature_high, 'degC')}",
            "turn them round",
        )
    section.done()
    return room
