"""How to squash a piece of one's own: the protocol, and the file for its readings."""

from __future__ import annotations

import json

from isolator.design.fill import Fill
from isolator.measuring.squash_plan import RUNS, SHAPE, SquashPlan
from isolator.report.sentences.numbers import number, readable

PIECE = "test-piece"
READINGS = "readings.toml"
FINE = "0.05 mm"
MINUTES = 1.5
"""A load: one to wait, the rest to pile up and read."""


def plan_title(plan: SquashPlan) -> str:
    """Return what the protocol is headed with."""
    return f"Squash a piece of your own: {plan.material.name} ({plan.material.id})"


def plan_steps(plan: SquashPlan, fill: Fill, folder: str) -> list[str]:
    """Return the protocol, a step a sentence.

    `fill` is how a print is filled, `folder` where the design lies.
    """
    piece, side = plan.piece, readable(plan.piece.side, "m")
    if piece.pad.printed:
        get = (
            f"Print squash/{PIECE}.3mf, a block {side} square and {readable(piece.height, 'm')} "
            f"high, of the filament of your feet: {fill.words}"
        )
    else:
        count = "a square" if piece.layers == 1 else f"{piece.layers} squares"
        stack = "" if piece.layers == 1 else ", stacked on one another"
        get = (
            f"Cut {count} of {side} from the same sheet ({readable(piece.thickness, 'm')})"
            f"{stack}: {readable(piece.height, 'm')} high"
        )
    held = (
        "Stick it between two stiff boards with double-sided tape, so that its faces cannot slip"
        if plan.bonded
        else "Lay it between two flat stiff boards"
    )
    kilograms = ", ".join(number(each) for each in plan.masses)
    share = 100 * plan.squeezed / piece.height
    most = plan.material.strain_limit.value
    least = (
        "the first is the board alone, with a weight on it if it is lighter; type your own masses "
        "where yours differ"
        if plan.bonded
        else "0 is the piece alone"
    )
    hours = (2 * len(plan.masses) - 1) * RUNS * MINUTES / 60
    return [
        get,
        held,
        "Weigh the upper board and every weight on a kitchen scale, one by one: bottles of water "
        f"do. Pile them up to {kilograms} kg, the board counted in; {least}",
        f"Wait a minute under each load, then read the height between the boards to {FINE}, at two "
        "opposite sides, and note the mean. The card so far makes it "
        f"{readable(plan.squeezed, 'm', 2)} ({number(share, 2)} %) in all; pile up no more once "
        f"it is {readable(most * piece.height, 'm', 2)} lower ({number(100 * most, 2)} %): feet "
        "are never squeezed further",
        f"Go up and down so {RUNS} times, about {number(hours, 1)} h in all; the first squeezes "
        "the piece in. Note the room's temperature",
        "High piles tip: work near the floor, keep toes and fingers clear",
        f"Type the heights into {folder}/squash/{READINGS}, then: isolator squash "
        f"{folder}/squash/{READINGS}; with --brief it tells what the card changes of your feet",
    ]


def readings_text(plan: SquashPlan) -> str:
    """Return the file to fill in: the piece as planned, its loads, room for heights."""
    piece = plan.piece
    grams = [round(1e3 * each, 3) for each in plan.masses]
    way = [*grams, *reversed(grams[:-1])]
    loads = [*way, *(way[1:] * (RUNS - 1))]
    side = f'"{1e3 * piece.side:g} mm"'
    ident = f"my-{plan.material.id}"[:40].rstrip("-")
    faces = "bonded" if plan.bonded else "slipping"
    return "\n".join(
        (
            f"# {plan_title(plan)}",
            "[specimen]",
            f"family = {json.dumps(plan.material.family)}",
            f'shape = "{SHAPE}"',
            f"size = [{side}, {side}]          # as you measure it",
            f'thickness = "{1e3 * piece.thickness:g} mm"   # of one layer, as you measure it',
            f"layers = {piece.layers}",
            f'faces = "{faces}"',
            'temperature = "20 degC"    # of the room',
            f'id = "{ident}"',
            f'like = "{plan.material.id}"',
            "",
            "[readings]",
            f'"mass [g]" = [{", ".join(f"{each:g}" for each in loads)}]',
            '"height [mm]" = []         # one height a mass, in this order',
            "",
        )
    )
