"""A printer on its own feet on a slab, condensed, against two bodies put together as a whole."""

from __future__ import annotations

from dataclasses import replace
from math import pi, tau

import numpy as np
import pytest
from briefs import EXAMPLES, ROOM

from isolator.brief import Brief, read_brief_text
from isolator.brief.slab import USUAL_FEET
from isolator.cards import load_cards
from isolator.physics.bodies.rigid import (
    GROUND,
    Support,
    assemble,
    cross_matrix,
    gravity_stiffness,
    mass_matrices,
    support_matrix,
)
from isolator.physics.bodies.statics import G, equal_shares
from isolator.vibration.drives import AXES
from isolator.vibration.excitation import Excitation, build_excitation, force_at
from isolator.vibration.installation import build_installation
from isolator.vibration.on_slab import Between
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.printer import MassCase, build_printer, slab_piece
from isolator.vibration.sampled import all_above
from isolator.vibration.source import motor_source, push_source
from isolator.vibration.spreads import draw

CARDS = load_cards()
FREQUENCY = np.array([0.7, 3.0, 5.0, 8.0, 13.0, 21.0, 34.0, 47.0, 60.0, 110.0, 400.0])
SLAB = '[slab]\nsize = ["470 mm", "500 mm", "45 mm"]\nposition = ["6 mm", "-9 mm"]\n'
NOW = '[feet.now]\nmaterial = "nr-70"\nshape = "disc"\nsize = ["19 mm"]\nthickness = "8 mm"\n'
PADS = np.array(
    [[0.19, 0.2, -0.07], [-0.2, 0.18, -0.06], [-0.18, -0.22, -0.07], [0.2, -0.21, -0.06]]
)
LINEAR = np.array([[6e3, 7e3, 15e3], [7e3, 5e3, 14e3], [5e3, 6e3, 17e3], [6e3, 6e3, 13e3]])
ANGULAR = np.full((4, 3), 3.0)
LOSSY = 1 + 0.1j


def brief(slab: str = SLAB, frame: str = "rigid") -> Brief:
    return read_brief_text(f'{ROOM}\n{slab}\n[frame]\nkind = "{frame}"\n', "brief.toml")


def still(asked: Brief) -> Excitation:
    """What shakes it, without drives: their recoil is looked at elsewhere."""
    return replace(build_excitation(asked), belts=(), drives=())


def heavy(asked: Brief) -> MassCase:
    return build_installation(asked, CARDS).printer.heavy


def test_forced_motion_is_that_of_both_bodies_put_together() -> None:
    asked = brief()
    assert asked.slab is not None
    whole, own = heavy(asked), build_printer(replace(asked, slab=None)).heavy
    (slab,) = slab_piece(asked.slab)
    stand = build_now_stand(asked, CARDS)
    assert stand is not None
    feet, _ = stand.settled(own, "nominal")
    coms = [slab[1], own.com]
    weight = whole.mass * G
    loads = equal_shares(PADS[:, :2], whole.com[:2], np.array(weight))
    place = np.array([0.1, -0.07, 0.4])
    push = force_at(AXES["x"] + 0.4 * AXES["z"], place)
    source = push_source(still(asked), whole, FREQUENCY, [push])
    below = LOSSY * support_matrix(PADS - whole.com, LINEAR, ANGULAR)
    below = below + gravity_stiffness(loads, PADS - whole.com)
    found = np.linalg.solve(below + source.dynamic[0], source.blocked[0])[..., 0]

    mass = mass_matrices([slab[0], own.mass], [slab[2], own.inertia])
    above = [(centre, load) for centre, load in zip(feet.centres[0], feet.load[0], strict=True)]
    for index, hertz in enumerate(FREQUENCY):
        factor = float(feet.ratio[0] * (hertz / feet.reference[0]) ** feet.alpha[0])
        supports = [
            *(
                Support(GROUND, 0, pad, LOSSY * np.diag([*linear, *angular]))
                for pad, linear, angular in zip(PADS, LINEAR, ANGULAR, strict=True)
            ),
            *(
                Support(0, 1, centre, factor * (1 + 1j * loss) * np.diag([*linear, *angular]))
                for (centre, _), loss, linear, angular in zip(
                    above, feet.loss[0], feet.linear[0], feet.angular[0], strict=True
                )
            ),
        ]
        forces = [np.array([0, 0, load]) for load in (*loads, *(load for _, load in above))]
        stiffness = assemble(coms, supports, forces)
        right = np.concatenate([np.zeros(6), push.about(own.com)])
        moved = np.linalg.solve(stiffness - (tau * hertz) ** 2 * mass, right)[:6]
        moved[:3] += -cross_matrix(whole.com - slab[1]) @ moved[3:]
        np.testing.assert_allclose(found[index], moved, rtol=1e-6, atol=1e-9 * np.abs(moved).max())


def test_what_stands_between_matters() -> None:
    asked = brief()
    on_feet = heavy(asked)
    source = push_source(still(asked), on_feet, FREQUENCY, [force_at(AXES["z"], on_feet.com)])
    one = -((2 * pi * FREQUENCY) ** 2) * on_feet.mass
    ratio = np.abs(source.dynamic[0, :, 2, 2] / one)
    assert ratio[0] == pytest.approx(1.0, rel=1e-3)  # slowly both move as one
    assert ratio.max() > 1.4  # near the printer's own feet's mode
    assert ratio[-1] < 0.75  # far above it the slab is alone
    blocked = np.abs(source.blocked[0, :, 2, 0])
    assert blocked[0] == pytest.approx(1.0, rel=1e-3)
    assert blocked[-1] < 0.5  # the printer's own feet isolate too


def test_a_printer_without_feet_of_its_own_is_one_body_with_its_slab() -> None:
    glued = brief(SLAB + 'between = "none"\n')
    excitation, one = still(glued), heavy(glued)
    assert one.on_slab is None
    # feet a million times as stiff come to the same
    soft = heavy(brief())
    assert soft.on_slab is not None
    stiff = replace(soft, on_slab=replace(soft.on_slab, elastic=1e6 * soft.on_slab.elastic))
    given = push_source(excitation, stiff, FREQUENCY, [force_at(AXES["y"], one.com)])
    # the frame lies lower by the height of its feet: the body is the one that stands on feet
    bare = replace(soft, on_slab=None)
    wanted = push_source(excitation, bare, FREQUENCY, [force_at(AXES["y"], one.com)])
    scale = np.abs(wanted.dynamic).max(axis=(-1, -2), keepdims=True)
    np.testing.assert_allclose(given.dynamic / scale, wanted.dynamic / scale, atol=1e-4)
    np.testing.assert_allclose(given.blocked, wanted.blocked, atol=3e-4)


def test_what_the_brief_says_of_feet_between() -> None:
    def slab(text: str, more: str = "") -> tuple[str, float]:
        bare = ROOM[: ROOM.index("[feet.now]")] + ROOM[ROOM.index("[desk]") :]
        found = read_brief_text("\n".join([bare, more, text, ""]), "brief.toml").slab
        assert found is not None
        return found.between, found.gap

    assert slab(SLAB) == ("none", 0.0)
    assert slab(SLAB, NOW) == ("feet", 0.008)
    assert slab(SLAB + 'gap = "12 mm"') == ("feet", 0.012)
    assert slab(SLAB + 'between = "feet"') == ("feet", 0.010)
    assert slab(SLAB + 'between = "none"', NOW) == ("none", 0.0)
    assert slab(SLAB + 'gap = "12 mm"\nbetween = "none"') == ("none", 0.012)


def test_drives_and_a_bending_frame_ride_on_the_printer_on_its_slab() -> None:
    text = (EXAMPLES / "workshop.toml").read_text(encoding="utf-8")
    asked = read_brief_text(text.replace("[slab]", '[slab]\nbetween = "feet"'), "brief.toml")
    excitation, case = build_excitation(asked), heavy(asked)
    found = motor_source(excitation, case, FREQUENCY)
    assert case.on_slab is not None
    own = build_printer(replace(asked, slab=None)).heavy
    bare = motor_source(excitation, own, FREQUENCY)
    # slowly the slab's feet feel what the printer alone would pass on, about another point
    np.testing.assert_allclose(
        np.abs(found.blocked[0, 0, :3]), np.abs(bare.blocked[0, 0, :3]), rtol=5e-3, atol=1e-6
    )
    assert np.abs(found.blocked[0, -1, 0]).max() < np.abs(bare.blocked[0, -1, 0]).max()


def test_the_band_of_the_feet_between_is_looked_at() -> None:
    asked = brief()
    case = build_installation(asked, CARDS).printer.nominal
    assert case.on_slab is not None
    spread = case.on_slab.spread
    assert spread.stiffness > 1.2  # a card's spread and the room's temperatures
    assert spread.loss == CARDS[USUAL_FEET.material].loss_factor.spread
    push = [force_at(AXES["z"], case.com)]
    blocked = [
        np.abs(
            push_source(still(asked), case, FREQUENCY, push, between=factor).blocked[0, -1, 2, 0]
        )
        for factor in (Between(1.0 / spread.stiffness), Between(spread.stiffness))
    ]
    assert blocked[0] < blocked[1]  # softer feet keep back more


def test_the_loss_of_the_feet_between_is_sampled() -> None:
    asked = brief()
    installation = build_installation(asked, CARDS)
    printer, excitation = installation.printer, installation.excitation
    slab, samples = printer.nominal.on_slab, draw(printer.extras, 64)
    assert slab is not None
    above = all_above(printer, excitation, samples)
    assert above[0].between == pytest.approx((1.0, 1.0))
    logs = np.log([each.between for each in above[1:]])
    for column, spread in zip(logs.T, slab.spread, strict=True):
        assert np.abs(column).max() < 2.0 * np.log(spread)
        assert column.std() == pytest.approx(np.log(spread) / 1.96, rel=0.1)
    assert abs(np.corrcoef(logs.T)[0, 1]) < 0.4
    resonant = np.geomspace(4.0, 200.0, 300)
    # more loss, less force where the printer resonates on its own feet
    push = [force_at(AXES["z"], printer.nominal.com)]
    lossy = []
    for each in (Between(loss=0.5), Between(loss=2.0)):
        found = push_source(still(asked), printer.nominal, resonant, push, between=each)
        lossy.append(np.abs(found.blocked[0, :, 2]))
    assert lossy[0].max() > 1.3 * lossy[1].max()
