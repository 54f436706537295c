"""The feet a printer stands on before new ones: its own, ordinary bumpers, those on its slab."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from isolator.brief import Brief, NowFoot, Slab, designed_positions, foot_positions
from isolator.brief.slab import OWN_INSET, USUAL_FEET, usual_feet
from isolator.cards import Material
from isolator.design import Pad
from isolator.physics.bodies.statics import G
from isolator.reading.faults import refused
from isolator.vibration.on_slab import Between, build_on_slab
from isolator.vibration.printer import MassCase, RigidPrinter, build_printer, slab_piece
from isolator.vibration.stand import Alike, Stand, contact_width, one_pad, pads_stand
from isolator.vibration.supports import stiffness_factor

HALF_BONDED = 0.5
"""How far the faces of feet that stand by friction are held; estimated, no source."""
LEANING = 0.15
"""From its centre of mass to bumpers, of a printer that leans over its corners [m]; estimated."""


def build_now_stand(brief: Brief, cards: dict[str, Material]) -> Stand | None:
    """Return the feet that stand there now, None where the brief does not say.

    A slab of the brief is not under the printer yet, but where they are told to be under it.
    """
    now = brief.feet.now
    if now is None:
        return None
    if now.under == "slab" and brief.slab is not None:
        return _under_slab(brief, cards, now, brief.slab)
    printer = None if brief.slab is None else build_printer(replace(brief, slab=None))
    return _own_feet(brief, cards, now, printer)


def build_bumpers(brief: Brief, cards: dict[str, Material]) -> Stand:
    """Return ordinary rubber bumpers under the printer, without a slab.

    What is heard is compared with these where the brief does not tell today's feet.
    """
    bare = build_printer(replace(brief, slab=None))
    own = usual_feet(bare.heavy.mass * G / 4.0)
    title = f"ordinary rubber bumpers, {own.first * 1e3:.0f} mm by {own.thickness * 1e3:.0f} mm"
    printer = None if brief.slab is None else bare
    stand = _own_feet(brief, cards, own, printer, usual=True)
    if not _rests(stand, bare):
        # it leans over its corners: four round its centre of mass
        x, y = bare.heavy.com[:2].tolist()
        round_it = tuple((x + a, y + b) for a in (-LEANING, LEANING) for b in (-LEANING, LEANING))
        there = replace(brief, slab=None, feet=replace(brief.feet, positions=round_it))
        stand = _own_feet(there, cards, own, printer)
    return replace(stand, title=title)


def _rests(stand: Stand, printer: RigidPrinter) -> bool:
    """Return whether a printer finds rest on a stand."""
    try:
        for case in printer.cases:
            stand.settled(case, "nominal")
    except ArithmeticError:
        return False
    return True


def _own_feet(
    brief: Brief,
    cards: dict[str, Material],
    own: NowFoot,
    printer: RigidPrinter | None,
    *,
    usual: bool = False,
) -> Stand:
    """Return a printer's own feet, a brief's slab not under it; four by the rule if `usual`."""
    feet, count = brief.feet, brief.feet.count[0]
    if usual or (brief.slab is not None and feet.positions is not None):
        # those places are under the slab, or the new feet's; its own stand by the rule
        feet, count = replace(feet, positions=None, inset=OWN_INSET), 4
    places = foot_positions(feet, brief.printer.size, count)
    return _now_stand(brief, cards, own, places, 0.0, printer)


def _under_slab(brief: Brief, cards: dict[str, Material], own: NowFoot, slab: Slab) -> Stand:
    """Return today's feet under the slab on which the printer stands already."""
    feet = brief.feet
    places = designed_positions(feet, brief.printer.size, slab, feet.count[0])
    return _now_stand(brief, cards, own, places, slab.gap + slab.size[2], None)


def _now_stand(
    brief: Brief,
    cards: dict[str, Material],
    own: NowFoot,
    places: Sequence[tuple[float, float]],
    cap: float,
    printer: RigidPrinter | None,
) -> Stand:
    """Return today's feet at `places` with `cap` [m] between the printer's underside and them."""
    material = cards[own.material]
    pad = Pad(
        shape=own.shape,
        first=own.first,
        second=own.second,
        thickness=own.thickness,
        layers=1,
        material=own.material,
        printed=False,
    )
    group = Alike(
        pads=one_pad(material, pad, bonded=1.0 if own.bonded else HALF_BONDED),
        positions=np.array(places),
        cap=cap,
        width=contact_width(pad),
    )
    height = cap + own.thickness
    return pads_stand(brief.room, material, "feet there now", [group], height, printer)


def stood_on_slab(brief: Brief, cards: dict[str, Material], printer: RigidPrinter) -> RigidPrinter:
    """Return `printer` with its slab as a body of its own, where its feet stand between them.

    Raises InputError where it would tip off them.
    """
    slab = brief.slab
    if slab is None or slab.between != "feet":
        return printer
    bare = build_printer(replace(brief, slab=None))
    now = brief.feet.now
    own = USUAL_FEET if now is None or now.under == "slab" else now
    stand = _own_feet(brief, cards, own, bare)
    if not _rests(stand, bare):
        raise refused(
            brief.source_file,
            "slab.between",
            "a printer that tips off its own feet on the slab",
            "feet of its own that carry it upright",
            'mend its centre of mass, its extras or feet.now, or write between = "none"',
        )
    (under,) = slab_piece(slab)

    material, room = cards[own.material], brief.room
    soft, stiff = (
        stiffness_factor(material, end=end, low=room.temperature_low, high=room.temperature_high)
        for end in ("soft", "stiff")
    )
    spread = Between(math.sqrt(stiff / soft), material.loss_factor.spread)

    def case(whole: MassCase, alone: MassCase) -> MassCase:
        feet, _ = stand.settled(alone, "nominal")
        body = (alone.mass, alone.com, alone.inertia)
        return replace(whole, on_slab=build_on_slab(body, under, feet, whole.com, spread))

    return replace(
        printer,
        light=case(printer.light, bare.light),
        nominal=case(printer.nominal, bare.nominal),
        heavy=case(printer.heavy, bare.heavy),
        between=lambda shares: case(printer.at(shares), bare.at(shares)),
    )
