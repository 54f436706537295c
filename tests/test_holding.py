"""What an attachment feels: worked by hand, against a rigid plate on springs, and its limits."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from briefs import ROOM
from hypothesis import given, settings
from hypothesis import strategies as st

from isolator.brief import read_brief_text
from isolator.design import ATTACHMENTS, Foot
from isolator.design.attachment import FLANGED
from isolator.holding import DRAGGED, SAFETY, STRENGTHS, STUCK, holding_checks
from isolator.materials import load_cards
from isolator.physics import holding
from isolator.physics.statics import settle
from isolator.sheet import foot_of

BRIEF = read_brief_text(ROOM, "brief.toml")
CARD = load_cards()["nr-50"]


def foot(attachment: str, **changed) -> Foot:
    one = foot_of(BRIEF, CARD, "disc", 0.03, 0.0, 0.014, 1, ((0.18, 0.19), (-0.18, 0.19)), 0.0)
    holes = ((-0.031, 0.0), (0.034, 0.0)) if attachment in ("two-bolts", "self-tapping") else ()
    if attachment == "holes":
        holes = ((-0.03, 0.004), (0.032, -0.012), (0.028, 0.015))
    return replace(one, attachment=attachment, bolt=0.0, holes=holes, **changed)


def test_two_screws_of_a_flange_by_hand() -> None:
    """24 N at 25 mm under a face 60 × 28 mm that 30 N press on.

    Tipping about y (along x): the weight holds 30 · 30 = 900 N·mm of 24 · 25 = 600: no tension.
    About x the edge is 14 mm off: 600 − 420 = 180 N·mm, both screws 14 mm from it: 6.43 N each.
    """
    pulled = holding.screw_tension(
        [(-0.024, 0.0), (0.024, 0.0)], (0.03, 0.014), 24.0, 0.025, 30.0, 0.0
    )
    assert pulled == pytest.approx([6.42857, 6.42857], rel=1e-5)


@settings(deadline=None, max_examples=40)
@given(
    sideways=st.floats(5, 80), load=st.floats(5, 60), height=st.floats(0.01, 0.06),
    x=st.floats(0.012, 0.03),
)  # fmt: skip
def test_the_pull_of_unequal_screws_is_that_of_springs_under_a_rigid_plate(
    sideways: float, load: float, height: float, x: float
) -> None:
    """Screws as equal springs and a stiff edge, solved by the plate's own equilibrium."""
    places, edge = [(-x, 0.0), (0.7 * x, 0.0)], 0.035
    pulled = holding.screw_tension(places, (edge, 1.0), sideways, height, load, 0.0)
    moment = max(0.0, sideways * height - load * edge)
    for k in range(2):
        # the plate turns by θ about the edge at +edge or −edge: springs give c·θ·lever
        worst = max(
            moment * lever[k] / sum(each**2 for each in lever)
            for lever in ([edge - at for at, _ in places], [edge + at for at, _ in places])
        )
        assert pulled[k] == pytest.approx(worst, rel=1e-9, abs=1e-12)


def test_a_heavy_low_foot_pulls_at_nothing_and_a_pull_is_shared() -> None:
    held = holding.screw_tension([(-0.02, 0.0), (0.02, 0.0)], (0.03, 0.03), 20.0, 0.02, 40.0, 9.0)
    assert held == pytest.approx([4.5, 4.5])


def test_a_cantilever_is_as_stiff_beams_have_it() -> None:
    """Section modulus b·t²/6 integrated over the thickness, not quoted."""
    width, thick, force, arm = 0.0135, 0.0042, 37.0, 0.0061
    z = np.linspace(-thick / 2, thick / 2, 20_001)
    inertia = float(np.trapezoid(width * z**2, z))
    by_beam = force * arm * (thick / 2) / inertia
    assert holding.cantilever_stress(force, arm, width, thick) == pytest.approx(by_beam, rel=1e-7)


@pytest.mark.parametrize("disc", [True, False])
def test_peel_is_the_edge_stress_of_a_bent_face(disc: bool) -> None:
    wide, deep = (0.027, 0.027) if disc else (0.031, 0.022)
    y = np.linspace(-deep / 2, deep / 2, 200_001)
    chord = 2.0 * np.sqrt(np.maximum((wide / 2) ** 2 - y**2, 0.0)) if disc else wide
    inertia = float(np.trapezoid(chord * y**2, y))
    area = float(np.trapezoid(chord * np.ones_like(y), y))
    wanted = 0.31 * (deep / 2) / inertia + 4.0 / area
    # the trapezia of a round chord miss its ends
    assert holding.peel_stress(0.31, 4.0, wide, deep, disc=disc) == pytest.approx(wanted, rel=1e-5)


@pytest.mark.parametrize("attachment", ATTACHMENTS)
def test_every_attachment_is_judged_by_what_holds_it(attachment: str) -> None:
    told = holding_checks(foot(attachment), load=31.0, friction=0.5, filament="petg")
    names = {check.name for check in told}
    if attachment == "adhesive":
        assert names == {"glue holds"}
    elif attachment in FLANGED:
        assert names == {"flange bends", "plastic under the screw heads"}
    else:
        assert names == {"plastic over the screw head"}
    assert all(check.passed and not check.advice for check in told)


@settings(deadline=None, max_examples=40)
@given(
    load=st.floats(3, 90), more=st.floats(1.05, 4.0), attachment=st.sampled_from(ATTACHMENTS),
    friction=st.floats(0.05, 2.0),
)  # fmt: skip
def test_more_load_is_never_easier_and_a_tall_foot_is_never_safer(
    load: float, more: float, attachment: str, friction: float
) -> None:
    one = foot(attachment)
    tall = replace(one, pad=replace(one.pad, thickness=one.pad.thickness * more))

    def values(which: Foot, newtons: float) -> list[float]:
        found = holding_checks(which, load=newtons, friction=friction, filament="pla")
        return [check.value for check in found]

    assert np.all(np.array(values(one, load * more)) >= np.array(values(one, load)) - 1e-9)
    assert np.all(np.array(values(tall, load)) >= np.array(values(one, load)) - 1e-9)


def test_a_stilt_on_tape_is_refused_with_advice() -> None:
    one = foot("adhesive")
    stilt = replace(one, cap=0.07)
    (check,) = holding_checks(stilt, load=40.0, friction=0.5, filament="petg")
    # by hand: body 30 + 2·(side room + wall) wide, 32 N at its height, 40 N in the middle
    wide = 0.03 + 2.0 * (one.side_room + one.wall)
    moment = DRAGGED * 40.0 * stilt.height - 40.0 * wide / 2.0
    stress = moment / (math.pi * wide**3 / 32.0) + STUCK * 40.0 / (math.pi * wide**2 / 4.0)
    assert check.value == pytest.approx(100.0 * stress / 300e3)
    assert not check.passed
    assert check.advice == "take a wider pad, or screw the foot on"


def test_steel_is_never_what_gives_way() -> None:
    """ISO 898-1, from memory: stress area of M4 8.78 mm², proof stress of class 8.8 580 MPa.

    The plastic under an M4 head may carry, at its allowed stress, a small part of the proof load.
    """
    proof = 8.78e-6 * 580e6
    allowed = max(each.within for each in STRENGTHS.values()) / SAFETY
    under_head = allowed * math.pi / 4.0 * (0.0076**2 - 0.0045**2)
    assert under_head < 0.15 * proof


def test_settling_and_holding_agree_where_nothing_tips() -> None:
    """Feet that settle level press on every screw: the weight alone pulls at none."""
    places = np.array([[-0.2, -0.2], [0.2, -0.2], [0.2, 0.2], [-0.2, 0.2]])
    rest = settle(places, [0.0, 0.0], np.array(118.0), lambda sag: (4e4 * sag, 4e4 + 0 * sag))
    load = float(rest.loads[0])
    assert load == pytest.approx(29.5)
    assert holding.screw_tension([(0.0, 0.0)], (0.015, 0.015), 0.0, 0.03, load, 0.0) == 0.0
