"""Feet as they stand under the printer: designed, given as stiffnesses, or there now."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from isolator.brief import (
    Brief,
    GivenFoot,
    NowFoot,
    Room,
    Slab,
    designed_positions,
    foot_positions,
)
from isolator.brief.slab import OWN_INSET, USUAL_FEET, usual_feet
from isolator.cards import Material
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import PadBatch
from isolator.design import Foot, Pad
from isolator.design.soles import FRICTION, PAD
from isolator.physics.arrays import Array
from isolator.physics.bodies.statics import G, Settled, settle
from isolator.physics.rubber.viscoelastic import springpot_exponent
from isolator.reading.faults import refused
from isolator.vibration.on_slab import Between, build_on_slab
from isolator.vibration.printer import MassCase, RigidPrinter, build_printer, slab_piece
from isolator.vibration.spreads import Samples, pad_factors
from isolator.vibration.supports import (
    FeetBatch,
    beside,
    feet_of_pads,
    loss_at,
    stiffness_factor,
)

HALF_BONDED = 0.5
"""How far the faces of feet that stand by friction are held; estimated, no source."""
GIVEN_WIDTH = 0.03
"""What feet of which only stiffnesses are known stand on [m]; estimated, no source."""
BALL_SHARE = 0.5
"""Width on which a half-ball stands over its diameter, pressed by a tenth of it; estimated."""
LEANING = 0.15
"""From its centre of mass to bumpers, of a printer that leans over its corners [m]; estimated."""
ENDS = ("soft", "nominal", "stiff")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """One set of feet that can be put under any mass case at any end of its band."""

    title: str
    material: Material | None
    height: float  # of the printer's underside over the desk, unloaded [m]
    widths: Array  # (s,) of the disc on which each foot stands [m]
    settled: Callable[[MassCase, str], tuple[FeetBatch, tuple[float, float]]]
    """(mass case, end of the band) → feet under load, static tilt about x and y [rad]."""
    sampled: Callable[[Sequence[MassCase], Samples, str], FeetBatch]
    """(mass case of each of n samples, samples, one of `spreads.STANDS`) → n sets under load."""
    printer: RigidPrinter | None = None  # what stands on them, where it is another than asked about
    touches: str = PAD  # what grips least on the desk, one of `isolator.design.soles.FRICTION`


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Equal pads and where they stand."""

    pads: PadBatch  # a batch of one
    positions: Array  # (s, 2) [m]
    cap: float  # solid height over them [m]
    width: float  # of what one stands on [m]


def pads_stand(
    room: Room,
    material: Material,
    title: str,
    groups: Sequence[Alike],
    height: float,
    printer: RigidPrinter | None = None,
) -> Stand:
    """Return pads of one material in groups of equal ones; all stand `height` [m] tall."""
    positions = np.concatenate([group.positions for group in groups])
    ends = np.cumsum([len(group.positions) for group in groups])
    # each group with its places among all
    placed = [
        (group, slice(end - len(group.positions), end))
        for group, end in zip(groups, ends, strict=True)
    ]

    def resting(
        cases: Sequence[MassCase], factor: Array | float, loss: float | None = None
    ) -> tuple[FeetBatch, Settled]:
        """Return feet of `factor` (n, 1) times the card's modulus under n cases."""

        def force_of(sag: Array) -> tuple[Array, Array]:
            found = [group.pads.pressed(sag[..., own], factor) for group, own in placed]
            forces, tangents = zip(*found, strict=True)
            return np.concatenate(forces, axis=-1), np.concatenate(tangents, axis=-1)

        rest = settle(positions, *_loading(cases), force_of)
        feet = [
            feet_of_pads(
                group.pads,
                group.positions,
                rest.loads[:, own],
                group.cap,
                modulus_factor=factor,
                loss=loss,
            )
            for group, own in placed
        ]
        return beside(feet), rest

    def settled(case: MassCase, end: str) -> tuple[FeetBatch, tuple[float, float]]:
        factor = stiffness_factor(
            material, end=end, low=room.temperature_low, high=room.temperature_high
        )
        feet, rest = resting([case], factor, loss_at(material, end))
        return feet, (_tilt(rest.tilt_x), _tilt(rest.tilt_y))

    def sampled(cases: Sequence[MassCase], samples: Samples, stand: str) -> FeetBatch:
        factors = pad_factors(samples, material, samples.temperature(room), stand)
        feet, _ = resting(cases, factors.static[:, None])
        loss = factors.loss * material.loss_factor.value
        return replace(
            feet,
            loss=np.broadcast_to(loss[:, None], feet.loss.shape),
            alpha=springpot_exponent(loss),
            ratio=factors.dynamic * feet.ratio,
        )

    return Stand(
        title=title,
        material=material,
        height=height,
        widths=np.concatenate([np.full(len(g.positions), g.width) for g in groups]),
        settled=settled,
        sampled=sampled,
        printer=printer,
    )


def _loading(cases: Sequence[MassCase]) -> tuple[Array, Array]:
    """Return centres of mass in plan (n, 2) [m] and weights (n,) [N]."""
    return np.array([case.com[:2] for case in cases]), np.array([case.mass * G for case in cases])


def _tilt(turned: Array) -> float:
    """Return a tilt [rad]; rounded, so that a level printer is told as exactly level."""
    return round(float(turned[0]), 12)


def one_pad(material: Material, pad: Pad, *, bonded: float = 1.0) -> PadBatch:
    """Return one pad as a batch of one; `bonded` from 1, faces held, to 0, faces free to slip."""
    sizes = (np.array([pad.first]), np.array([pad.second]), np.array([pad.thickness]))
    return unloaded(material, pad.shape, sizes, bonded=bonded)


def contact_width(pad: Pad) -> float:
    """Return the diameter [m] of a disc as large as what a pad stands on, holes filled."""
    if pad.outline.halved:
        return BALL_SHARE * pad.first
    across = pad.first * pad.outline.along_y(pad.first, pad.second)
    return math.sqrt(across if pad.outline.round else 4.0 / math.pi * across)


def feet_stand(room: Room, feet: Sequence[Foot], material: Material) -> Stand:
    """Return the designed feet: one kind or several, all of one material and equally tall."""
    groups = [
        Alike(
            pads=one_pad(material, foot.pad),
            positions=np.array(foot.positions),
            cap=foot.over_rubber,
            width=contact_width(foot.pad),
        )
        for foot in feet
    ]
    height = max(foot.height for foot in feet)
    least = min((foot.touches for foot in feet), key=FRICTION.__getitem__)
    return replace(pads_stand(room, material, "designed feet", groups, height), touches=least)


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


def given_stand(given: tuple[GivenFoot, ...]) -> Stand:
    """Return feet whose stiffness is known as it acts: no band, no change with frequency."""
    centres = np.array([[foot.position for foot in given]])
    linear = np.array([[foot.stiffness for foot in given]])
    angular = np.array([[foot.angular for foot in given]])
    loss = np.array([[foot.loss_factor for foot in given]])

    def resting(cases: Sequence[MassCase]) -> tuple[FeetBatch, Settled]:
        upright, count = linear[..., 2], len(cases)

        def force_of(sag: Array) -> tuple[Array, Array]:
            return upright * sag, upright + 0.0 * sag

        rest = settle(centres[..., :2], *_loading(cases), force_of)
        feet = FeetBatch(
            centres=np.repeat(centres, count, axis=0),
            linear=np.repeat(linear, count, axis=0),
            angular=np.repeat(angular, count, axis=0),
            loss=np.repeat(loss, count, axis=0),
            ratio=np.ones(count),
            alpha=np.zeros(count),
            reference=np.ones(count),
            load=rest.loads,
            strain=np.full_like(rest.loads, np.nan),
            sag=np.maximum(rest.sags, 0.0),
            buckling=np.zeros_like(rest.loads),
            mass=np.zeros_like(rest.loads),
        )
        return feet, rest

    def settled(case: MassCase, end: str) -> tuple[FeetBatch, tuple[float, float]]:
        feet, rest = resting([case])
        return feet, (_tilt(rest.tilt_x), _tilt(rest.tilt_y))

    def sampled(cases: Sequence[MassCase], samples: Samples, stand: str) -> FeetBatch:
        return resting(cases)[0]

    # an elastic centre lies half way down a foot
    height = max(0.0, -2.0 * float(centres[..., 2].min()))
    return Stand(
        title="given feet",
        material=None,
        height=height,
        widths=np.full(len(given), GIVEN_WIDTH),
        settled=settled,
        sampled=sampled,
    )
