"""What is told of pads, centre of mass, stance and acceleration passes; a step less does not."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from briefs import ROOM, swapped

from isolator.brief import read_brief_text
from isolator.cards import Material
from isolator.cards.library import load_cards
from isolator.commands.known_cards import all_cards
from isolator.commands.trial import candidate_foot
from isolator.commands.would_pass import SHARES, gentler, with_acceleration
from isolator.commands.would_stand import (
    BY_CENTRE,
    BY_WIDTH,
    OUTWARD,
    WIDER,
    with_centre,
    with_stance,
    with_wider_pads,
)
from isolator.design import Foot
from isolator.feet.candidates import candidates
from isolator.feet.checks import SHEARED, Bounds, told
from isolator.feet.foot_checks import sheared, standing_checks
from isolator.feet.sizing import foot_of
from isolator.feet.task import build_feet_task
from isolator.report.sentences.checks import advice
from isolator.vibration.band import Check
from isolator.vibration.evaluation import held
from isolator.vibration.installation import Installation, build_installation
from isolator.vibration.printer import RigidPrinter
from isolator.vibration.results import Held
from isolator.vibration.stand import feet_stand

CARDS = load_cards()
SQUARE = ((-0.182, -0.191), (0.179, -0.188), (0.174, 0.187), (-0.169, 0.192))
NARROW = tuple((x / 2.0, y / 2.0) for x, y in SQUARE)
MOUNT = """[[stock.mount]]
name = "buffer from the drawer"
diameter = "22 mm"
height = "16 mm"
rubber = "11.5 mm"
thread = "6 mm"
lower = "thread"
stud = "13 mm"
depth = "6 mm"
across = "3 N/mm"
stiffness = "47 N/mm"
highest = "90 N"
"""


@pytest.fixture(scope="module")
def installation() -> Installation:
    return build_installation(read_brief_text(ROOM, "brief.toml"), CARDS)


def bounds_of(**limits: float) -> Bounds:
    """Return the bounds of a brief whose feet may be fixed anywhere, with other limits."""
    brief = read_brief_text(ROOM, "brief.toml")
    task = build_feet_task(brief)
    task = replace(task, feet=replace(task.feet, metal="sheet"))
    return Bounds(task=task, limits=replace(brief.limits, **limits), modes=40.0)  # type: ignore[arg-type]


def disc(
    bounds: Bounds, card: str, wide: float, tall: float, places: tuple[tuple[float, float], ...]
) -> Foot:
    return foot_of(bounds.task, CARDS[card], "disc", wide, 0.0, tall, 1, places, 0.0)


def standing(installation: Installation, foot: Foot, material: Material) -> Held:
    stand = feet_stand(installation.surroundings.room, (foot,), material)
    return held(installation, stand, installation.excitation.motion.speeds)


@pytest.mark.parametrize(
    ("name", "strain", "wide", "tall", "words"),
    [
        ("pad strain", 0.06, 0.018, 0.012, "take more feet, or a stiffer grade"),
        ("pad buckling", 0.15, 0.02, 0.04, "take a thinner pad"),
    ],
)
def test_pads_as_much_wider_as_is_told_hold_and_a_step_less_do_not(
    installation: Installation, name: str, strain: float, wide: float, tall: float, words: str
) -> None:
    bounds, material = bounds_of(static_strain=strain), CARDS["nr-40"]

    def check(percent: float) -> Check:
        foot = disc(bounds, "nr-40", wide * (1 + percent / 100), tall, SQUARE)
        return BY_WIDTH[name](standing(installation, foot, material), bounds, material)

    assert not check(0).passed
    narrow = disc(bounds, "nr-40", wide, tall, SQUARE)
    (after,) = with_wider_pads((check(0),), installation, (narrow,), material, bounds)
    found = re.fullmatch(rf"it would pass with pads (\d+) % wider; or {words}", advice(after))
    assert found is not None
    percent = int(found[1])
    assert check(percent).passed
    assert not check(max((each for each in WIDER if each < percent), default=0)).passed


@pytest.mark.parametrize(
    ("name", "card", "wide", "tall", "off", "words"),
    [
        ("every foot carries", "nr-40", 0.05, 0.012, 0.14, "move the feet outward until no foot"),
        ("level", "pu-visco-30", 0.04, 0.04, 0.05, "move the feet so that they share the weight"),
    ],
)
def test_a_centre_of_mass_as_far_inward_as_is_told_mends_it_and_a_step_less_does_not(
    installation: Installation,
    name: str,
    card: str,
    wide: float,
    tall: float,
    off: float,
    words: str,
) -> None:
    bounds, printer = bounds_of(), installation.printer
    away = off + printer.nominal.com[0]
    foot = disc(bounds, card, wide, tall, tuple((x - away, y) for x, y in SQUARE))
    stand = feet_stand(installation.surroundings.room, (foot,), CARDS[card])
    middle = np.array([*np.mean(foot.positions, axis=0), 0.0])
    way = (middle - printer.nominal.com) * [1.0, 1.0, 0.0]

    def check(nearer: float) -> Check:
        """Return the check with the centre of mass so much nearer to the feet [m]."""
        shift = nearer * way / np.linalg.norm(way)
        light, nominal, heavy = (replace(each, com=each.com + shift) for each in printer.cases)
        there = replace(stand, printer=RigidPrinter(light=light, nominal=nominal, heavy=heavy))
        found = held(installation, there, installation.excitation.motion.speeds)
        return told(name, BY_CENTRE[name](found), bounds)

    assert not check(0.0).passed
    (after,) = with_centre((check(0.0),), installation, stand, bounds)
    found = re.match(
        r"it would pass with the centre of mass (\d+) mm nearer to the middle of the feet; or "
        + words,
        advice(after),
    )
    assert found is not None
    enough = int(found[1]) * 1e-3
    assert check(enough).passed
    step = np.ceil(40.0 * np.linalg.norm(way)) * 1e-3
    assert not check(enough - step).passed


@pytest.mark.parametrize(
    ("name", "card", "wide", "tall", "limits"),
    [
        ("standing upright", "sponge-1", 0.02, 0.02, {}),
        ("tipping", "pu-visco-30", 0.05, 0.06, {"tip_margin": 3.0}),
    ],
)
def test_feet_as_much_further_out_as_is_told_hold_it_and_a_step_less_do_not(
    installation: Installation,
    name: str,
    card: str,
    wide: float,
    tall: float,
    limits: dict[str, float],
) -> None:
    bounds, material = bounds_of(**limits), CARDS[card]

    def foot(out: float) -> Foot:
        places = tuple((x + np.copysign(out, x), y + np.copysign(out, y)) for x, y in NARROW)
        return disc(bounds, card, wide, tall, places)

    def check(out: float) -> Check:
        checks = standing_checks(standing(installation, foot(out), material), bounds)
        return next(each for each in checks if each.name == name)

    assert not check(0.0).passed
    (after,) = with_stance((check(0.0),), installation, (foot(0.0),), material, bounds)
    found = re.search(r"with every foot (\d+) mm further out along x and y", advice(after))
    assert found is not None
    out = int(found[1]) * 1e-3
    assert check(out).passed
    assert not check(out - OUTWARD).passed
    # no further than the frame, and never off a rail
    tight = replace(bounds, task=replace(bounds.task, frame=(0.22, 0.22, 0.4)))
    assert with_stance((check(0.0),), installation, (foot(0.0),), material, tight) == (check(0.0),)
    feet = replace(bounds.task.feet, metal="rails")
    railed = replace(bounds, task=replace(bounds.task, feet=feet))
    assert with_stance((check(0.0),), installation, (foot(0.0),), material, railed) == (check(0.0),)


def test_an_acceleration_that_is_told_shears_mounts_within_their_limit_and_one_above_does_not() -> (
    None
):
    hard = ('"2500 mm/s^2"', '"9000 mm/s^2"')
    brief = read_brief_text(swapped(("[desk]", f"{MOUNT}\n[desk]"), hard), "brief.toml")
    task, cards = build_feet_task(brief), all_cards(brief)
    (batch,) = [each for each in candidates(task, cards) if each.material.mount is not None]
    foot, material = candidate_foot(task, batch, 0), batch.material
    installation = build_installation(brief, cards)
    bounds = Bounds(task=task, limits=brief.limits, modes=40.0)
    stand = feet_stand(brief.room, (foot,), material)
    speeds = brief.motion.speeds

    def check(share: float) -> Check:
        slower = installation if share == 1.0 else gentler(installation, share)
        there = held(slower, stand, speeds)
        (only,) = sheared(bounds, slower.excitation.motion, there, (foot,), material)
        return only

    failing = check(1.0)
    assert (failing.name, failing.passed) == (SHEARED, False)
    (after,) = with_acceleration((failing,), installation, stand, bounds, speeds, (foot,), material)
    found = re.fullmatch(
        r"it would pass at (\d+) mm/s\^2 \(motion\.acceleration\); or take wider or harder mounts, "
        "or more feet",
        advice(after),
    )
    assert found is not None
    shares = {
        round(1e3 * gentler(installation, each).excitation.motion.acceleration): each
        for each in SHARES
    }
    share = shares[int(found[1])]
    assert check(share).passed
    assert not check(round(share + 0.1, 1)).passed
