"""Pads of unequal width under unequal loads, and a slab under the printer."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from briefs import ROOM, swapped
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import root

from isolator.brief import Brief, read_brief_text
from isolator.cards import Material, load_cards
from isolator.design import Foot
from isolator.feet.candidates import candidates
from isolator.feet.leveling import STEP, levelled
from isolator.feet.sizing import foot_of
from isolator.feet.task import build_feet_task
from isolator.physics.bodies.statics import G
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.printer import MassCase, RigidPrinter, build_printer
from isolator.vibration.stand import feet_stand, one_pad

CARDS = load_cards()
BRIEF = read_brief_text(ROOM, "brief.toml")
TASK = build_feet_task(BRIEF)
PLACES = ((-0.182, -0.191), (0.179, -0.188), (0.174, 0.187), (-0.169, 0.192))


def case(x: float, y: float, mass: float = 12.3) -> MassCase:
    nominal = build_printer(BRIEF).nominal
    return replace(nominal, mass=mass, com=np.array([x, y, 0.213]))


def equal_foot(material: Material, shape: str = "disc") -> Foot:
    first, second = (0.027, 0.0) if shape == "disc" else (0.031, 0.0124)
    return foot_of(TASK, material, shape, first, second, 0.012, 1, PLACES, 0.0)


# [kg] that squeezes the pads well but keeps within each curve
SQUEEZES = {"nr-40": 12.3, "sponge-1": 6.1, "pu-flexible-30": 0.7, "tpu-85-gyroid-15": 9.4}


@settings(max_examples=25)
@given(
    x=st.floats(-0.045, 0.045),
    y=st.floats(-0.045, 0.045),
    ident=st.sampled_from(sorted(SQUEEZES)),
    shape=st.sampled_from(["disc", "ring"]),
)
def test_the_printer_stays_level_wherever_its_mass_is(
    x: float, y: float, ident: str, shape: str
) -> None:
    card, mass = CARDS[ident], case(x, y, SQUEEZES[ident])
    equal = equal_foot(card, shape)
    feet = levelled(TASK, equal, card, mass)
    assert sorted(place for foot in feet for place in foot.positions) == sorted(PLACES)
    assert len({foot.name for foot in feet}) == len(feet)
    assert {foot.height for foot in feet} == {equal.height}
    under, tilt = feet_stand(BRIEF.room, feet, card).settled(mass, "nominal")
    # half a step of a pad's width, on the narrowest pad, moves its stress by so much, and its sag
    # by that times its softening: tangent over secant, not below a seventh on these curves
    # of a ring both widths are rounded: what counts is its wall
    narrowest = min(foot.pad.first - foot.pad.second for foot in feet)
    off = 7.0 * STEP / narrowest
    np.testing.assert_allclose(under.sag, under.sag.mean(), rtol=off)
    before = feet_stand(BRIEF.room, (equal,), card).settled(mass, "nominal")[1]
    slack = off * float(under.sag.mean()) / 0.17
    assert np.hypot(*tilt) <= np.hypot(*before) + slack
    assert np.hypot(*tilt) <= slack


def test_the_widest_pad_is_a_and_stands_under_the_heaviest_corner() -> None:
    card = CARDS["nr-40"]
    feet = levelled(TASK, equal_foot(card), card, case(0.031, 0.044))
    assert [foot.name for foot in feet] == ["foot-a", "foot-b", "foot-c", "foot-d"]
    assert feet[0].positions == (PLACES[2],)
    assert feet[-1].positions == (PLACES[0],)
    assert [foot.pad.first for foot in feet] == sorted(
        (foot.pad.first for foot in feet), reverse=True
    )
    assert [foot.label[:2] for foot in feet] == ["A ", "B ", "C ", "D "]


def test_alike_loads_and_balls_keep_one_kind() -> None:
    card = CARDS["nr-40"]
    middle = tuple(np.mean(PLACES, axis=0))
    square = replace(
        equal_foot(card), positions=((-0.1, -0.1), (0.1, -0.1), (0.1, 0.1), (-0.1, 0.1))
    )
    assert levelled(TASK, square, card, case(0.0, 0.0)) == (square,)
    ball = replace(
        equal_foot(card),
        kind="ball",
        pad=replace(equal_foot(card).pad, shape="half-ball", thickness=0.0135),
    )
    assert levelled(TASK, ball, card, case(middle[0] + 0.03, middle[1])) == (ball,)


def test_unequal_pads_settle_where_a_general_solver_finds_them() -> None:
    """Three balances solved by scipy's root on the pads' own force laws, no settle() of ours."""
    card, mass = CARDS["nr-50"], case(0.021, -0.034)
    wide = foot_of(TASK, card, "disc", 0.031, 0.0, 0.011, 1, PLACES[:1], 0.0, name="foot-a")
    slim = foot_of(TASK, card, "rectangle", 0.019, 0.027, 0.011, 1, PLACES[1:], 0.0, name="foot-b")
    found, tilt = feet_stand(BRIEF.room, (wide, slim), card).settled(mass, "nominal")
    pads = [one_pad(card, wide.pad)] + [one_pad(card, slim.pad)] * 3
    places = np.array(PLACES)

    def unbalanced(state: np.ndarray) -> np.ndarray:
        sags = state[0] + state[1] * places[:, 0] + state[2] * places[:, 1]
        loads = np.array(
            [
                float(pad.pressed(np.array([[sag]]))[0][0, 0])
                for pad, sag in zip(pads, sags, strict=True)
            ]
        )
        arms = places - mass.com[:2]
        return np.array([loads.sum() - mass.mass * G, *(loads @ arms)])

    rest = root(unbalanced, [4e-4, 0.0, 0.0], tol=1e-12)
    assert rest.success
    sags = rest.x[0] + rest.x[1] * places[:, 0] + rest.x[2] * places[:, 1]
    np.testing.assert_allclose(found.sag[0], sags, rtol=1e-6)  # both solvers' tolerance
    assert np.ptp(found.load) > 0.2 * found.load.mean()
    # z = sag downwards: a sag that grows towards x turns the printer about +y
    assert tilt == pytest.approx((-rest.x[2], rest.x[1]), rel=1e-5)


# --- a slab -------------------------------------------------------------------------------------

SLAB = (
    '[slab]\nsize = ["470 mm", "480 mm", "37 mm"]\nmass = "17.3 kg"\n'
    'position = ["6 mm", "-9 mm"]\ngap = "11 mm"\n\n[desk]'
)


def on_slab(*pairs: tuple[str, str]) -> Brief:
    text = swapped(("[desk]", SLAB), ('attachment = "slot-20"', ""), *pairs)
    return read_brief_text(text, "brief.toml")


def test_a_slab_adds_its_mass_where_it_lies() -> None:
    with_slab, without = build_printer(on_slab()).nominal, build_printer(BRIEF).nominal
    middle = np.array([0.006, -0.009, -0.011 - 0.0185])
    assert with_slab.mass == pytest.approx(without.mass + 17.3)
    np.testing.assert_allclose(
        with_slab.com, (without.mass * without.com + 17.3 * middle) / (without.mass + 17.3)
    )
    # the two-body form of the parallel-axis theorem, with the reduced mass
    arm = without.com - middle
    reduced = without.mass * 17.3 / (without.mass + 17.3)
    box = 17.3 / 12.0 * np.diag([0.48**2 + 0.037**2, 0.47**2 + 0.037**2, 0.47**2 + 0.48**2])
    joined = without.inertia + box + reduced * (arm @ arm * np.eye(3) - np.outer(arm, arm))
    np.testing.assert_allclose(with_slab.inertia, joined, rtol=1e-12)


def test_pads_go_bare_under_the_slab_and_the_feet_there_now_carry_the_printer_alone() -> None:
    brief = on_slab(("positions = ", "#positions = "), ("[feet]\n", "[feet]\ncount = 4\n"))
    printer: RigidPrinter = build_printer(brief)
    task = build_feet_task(brief)
    offered = candidates(task, CARDS)
    assert "printed" not in {block.material.family for block in offered}
    place = offered[0].positions
    # 30 mm from the slab's edge, about its own middle
    assert sorted(map(tuple, place.round(9).tolist())) == sorted(
        (round(0.006 + x, 9), round(-0.009 + y, 9)) for x in (-0.205, 0.205) for y in (-0.21, 0.21)
    )
    card = CARDS["iir-50"]
    foot = foot_of(task, card, "disc", 0.03, 0.0, 0.012, 1, PLACES, 0.0)
    assert (foot.kind, foot.cap, foot.sole, foot.wall) == ("bare", pytest.approx(0.048), 0.0, 0.0)
    assert foot.attachment == "adhesive"
    now = build_now_stand(brief, CARDS)
    assert now is not None
    assert now.printer is not None
    assert now.printer.nominal.mass == pytest.approx(printer.nominal.mass - 17.3)
