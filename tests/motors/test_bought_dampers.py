"""Bought dampers beside drawn ones: the same physics, the same checks, one choice."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from motor_samples import bench

from isolator.brief import Brief, DamperMount
from isolator.cards import load_cards
from isolator.design.damper import CLAMPED
from isolator.motors.belt_load import LoadedDamper, ends_of, loaded, stopped_by
from isolator.motors.belt_ring import ring_left
from isolator.motors.bought import bought_batches, ring_tilt
from isolator.motors.bracket import bracket_weights, quick_changes
from isolator.motors.candidates import DamperBatch, damper_batches
from isolator.motors.choose import DamperChoice, Place, choose
from isolator.motors.consequences import build
from isolator.motors.modes import mode_frequencies
from isolator.motors.mount import Damper
from isolator.motors.plates import Plates, plates_under
from isolator.motors.sampled import Drawn
from isolator.motors.task import build_motor_task
from isolator.physics.rubber.section import section
from isolator.vibration.excitation import build_excitation
from isolator.vibration.own_feet import build_bumpers
from isolator.vibration.printer import build_printer
from isolator.vibration.sampled import sampled
from isolator.vibration.spectrum import grid_for
from isolator.vibration.spreads import PadFactors, draw

MM, WARM, PLATE = 1e-3, 41.0, 1.3e-3
ROOM = 0.02  # stack that a shaft may allow [m]

MOUNT = DamperMount(
    id="damper-plain",
    name="plain",
    frame_size=17,
    outer=34.3 * MM,
    hole=23.4 * MM,
    thickness=2 * PLATE + 3 * MM,
    plate=PLATE,
    mass=0.0,
    twist=31.0,
    radial=150e3,
    axial=870e3,
    tilt=0.0,
    spread=1.2,
    loss_factor=0.0,
    loss_spread=1.3,
    loss_told=True,
    dynamic_ratio=1.0,
    ratio_told=True,
    conductivity=None,
    found="hardware shop",
)


def with_mounts(brief: Brief, *mounts: DamperMount, **changes: object) -> Brief:
    stock = replace(brief.damper, mounts=mounts, **changes)  # type: ignore[arg-type]
    return replace(brief, damper=stock)


def drawn_ring(brief: Brief, outer: float) -> DamperBatch:
    """Return the ring of a card 3 mm high that is as wide as `outer` [m]."""
    stock = replace(brief.damper, materials=("nr-70",), shapes=("ring",), thicknesses=(3 * MM,))
    (batch,) = damper_batches(stock, 17, brief.print.hole_compensation, load_cards())
    return batch.take(np.isclose(batch.first, outer))


def as_bought(ring: DamperBatch) -> DamperMount:
    """Return a data sheet with the stiffnesses, the loss and the rise of a drawn ring."""
    card = ring.material
    return replace(
        MOUNT,
        outer=float(ring.first[0]),
        hole=float(ring.second[0]),
        twist=float(ring.twist[0]),
        radial=float(ring.shear[0]),
        axial=float(ring.axial[0]),
        tilt=float(ring.tilt[0]),
        spread=card.stiffness_spread,
        loss_factor=card.loss_factor.value,
        dynamic_ratio=card.dynamic_ratio.value,
    )


def under_belts(brief: Brief, batch: DamperBatch) -> tuple[Plates, LoadedDamper]:
    task, motor = build_motor_task(brief), brief.motors[0]
    plates = plates_under(task.stock, motor.frame_size, task.print.layer, batch)
    return plates, loaded(task, motor, batch, plates, ends_of(brief.room, batch, WARM))


def mounted(brief: Brief, batch: DamperBatch) -> Damper:
    plates, found = under_belts(brief, batch)
    nominal = PadFactors(*(np.ones(1) for _ in range(3)))
    return Damper(offered=batch, loaded=found, plates=plates, rubber=nominal, ring_left=1.0)


def test_a_sheet_with_a_drawn_rings_stiffness_rings_and_is_heard_as_that_ring() -> None:
    """One physics: modes, belt, shaft and what is heard are the ring's between like plates."""
    brief = with_mounts(bench(), plates="steel", plate=PLATE, wedge=False)
    task, motor, ring = build_motor_task(brief), brief.motors[0], drawn_ring(brief, 33.2 * MM)
    (sheet,) = bought_batches(replace(brief.damper, mounts=(as_bought(ring),)), motor)
    one, other = (mounted(brief, each) for each in (ring, sheet))
    assert one.plates == other.plates
    ringing = [mode_frequencies(motor, each) for each in (one, other)]
    assert list(ringing[0]) == list(ringing[1])
    for name, own in ringing[0].items():
        np.testing.assert_allclose(ringing[1][name], own, rtol=1e-6)
    for name in ("stack", "shift", "tilt", "pulley_shift"):
        its, own = (getattr(each.loaded, name)[0] for each in (other, one))
        assert its == pytest.approx(own, rel=1e-6), name
    left = [
        ring_left(task, motor, each.offered, each.plates, each.loaded.stack)
        for each in (one, other)
    ]
    np.testing.assert_allclose(left[1], left[0], rtol=1e-6)
    speeds = np.array([0.04, 0.09, 0.17])
    grid = grid_for(task.excitation, speeds.tolist(), 0.05)
    weights = bracket_weights(task, 0, grid, speeds)
    heard = [
        quick_changes(task, 0, each.offered, (0.8, 1.3), grid, weights) for each in (one, other)
    ]
    np.testing.assert_allclose(heard[1], heard[0], rtol=1e-6)
    assert np.ptp(heard[0]) > 3.0  # which is something
    # what differs: the wire's end lies under a motor screw, not on an ear
    lost = one.loaded.clearance[0] - other.loaded.clearance[0]
    assert lost == pytest.approx(CLAMPED + 1.65 * MM - 2.0 * MM, rel=0.02)  # temperature
    # a moulded part is as thick within 0.25 mm, the prints with it within 0.15 mm
    assert build(task, motor, other).stack.tolerance == pytest.approx(0.4 * MM)
    assert build(task, motor, one).heat.case.nominal == pytest.approx(
        build(task, motor, other).heat.case.nominal,
        rel=0.05,  # the card tells its own conductivity
    )


def test_twist_and_sway_by_hand() -> None:
    """A box of the motor's mass, side a: f = √(12·k/(2·m·a²))/2π about the shaft; and the first
    of the two ways across it lies below √(k/m)/2π, as it rocks."""
    brief = with_mounts(bench(), MOUNT)
    motor = brief.motors[0]
    (sheet,) = bought_batches(brief.damper, motor)
    found = {
        name: float(each[0])
        for name, each in mode_frequencies(motor, mounted(brief, sheet)).items()
    }
    inertia = motor.mass * 2.0 * 0.0423**2 / 12.0
    assert found["twist"] == pytest.approx(math.sqrt(31.0 / inertia) / math.tau, rel=1e-6)
    assert found["bounce"] == pytest.approx(math.sqrt(870e3 / motor.mass) / math.tau, rel=1e-6)
    assert found["sway x"] < math.sqrt(150e3 / motor.mass) / math.tau


def test_what_is_not_told_of_tilt_is_a_rings() -> None:
    """k·(D² + d²)/16 of rubber that presses and tilts by one modulus, less as a free face bulges
    more where it tilts: between a half of that and all of it."""
    plain = MOUNT.axial * (MOUNT.outer**2 + MOUNT.hole**2) / 16.0
    assert 0.5 * plain < ring_tilt(MOUNT) <= plain
    part = section("ring", MOUNT.outer, MOUNT.hole)
    assert plain == pytest.approx(MOUNT.axial * float(part.i_x / part.area))
    (told,) = bought_batches(
        with_mounts(bench(), replace(MOUNT, tilt=44.0)).damper, bench().motors[0]
    )
    assert told.tilt[0] == 44.0


def test_a_motor_is_offered_what_fits_it_and_only_what_it_names() -> None:
    brief = with_mounts(bench(), MOUNT, replace(MOUNT, name="small", frame_size=14))
    large, small = brief.motors

    def names(*each: object) -> list[str]:
        return [batch.material.name for batch in bought_batches(brief.damper, *each)]  # type: ignore[arg-type]

    assert names(large) == ["plain"]
    assert names(small) == ["small"]
    assert names(replace(large, mount="plain")) == ["plain"]
    assert names(replace(large, mount="other")) == []


def test_one_that_is_named_is_built_though_the_belt_tilts_it_but_not_without_shaft() -> None:
    brief = with_mounts(bench(), replace(MOUNT, tilt=40.0), wedge=False)
    (batch,) = bought_batches(brief.damper, brief.motors[0])
    task, (_, found) = build_motor_task(brief), under_belts(brief, batch)
    assert found.tilt_left[0] > brief.damper.tilt_limit
    named = replace(brief.motors[0], mount="plain")
    assert stopped_by(task, brief.motors[0], batch, found, ROOM).tolist() == [1]
    assert stopped_by(task, named, batch, found, ROOM).tolist() == [-1]
    assert stopped_by(task, named, batch, found, 5.5 * MM).tolist() == [0]


def choice(brief: Brief, mount: str = "") -> DamperChoice:
    """Return what is chosen for the first motor in few samples, on bumpers."""
    asked = replace(brief, motors=(replace(brief.motors[0], mount=mount), *brief.motors[1:]))
    printer, cards = build_printer(asked), load_cards()
    samples = draw(printer.extras, 4)
    stand = build_bumpers(asked, cards)
    feet = sampled(stand, printer, build_excitation(asked), samples, "feet")
    drawn = Drawn(samples=samples, feet=feet)
    return choose(build_motor_task(asked), {0: Place(tallest=ROOM, warm=WARM)}, cards, drawn)


@pytest.fixture(scope="module")
def offered() -> Brief:
    """A sheet as stiff as the softest ring that holds, beside that ring and others."""
    slack = replace(bench(), motion=replace(bench().motion, belt_tension=9.0))
    base = with_mounts(
        slack,
        plates="steel",
        plate=PLATE,
        materials=("nr-70",),
        shapes=("ring",),
        thicknesses=(3 * MM,),
        tilt_limit=math.radians(0.6),
    )
    return with_mounts(base, as_bought(drawn_ring(base, 30.2 * MM)))


def test_of_two_that_sound_alike_the_bought_one_is_taken(offered: Brief) -> None:
    """It is one piece with nothing to cut and glue; drawn rings are compared beside it."""
    found = choice(offered)
    assert found.tried > 5, found.stopped
    assert found.ranked, found
    best = found.ranked[0][0]
    assert best.offered.bought == offered.damper.mounts[0]
    assert any(each[0].offered.bought is None for each in found.ranked)


def test_one_that_is_named_is_the_only_one_tried(offered: Brief) -> None:
    worse = replace(offered.damper.mounts[0], name="stiff", twist=900.0, radial=4e6, axial=2e7)
    brief = with_mounts(offered, *offered.damper.mounts, worse)
    found = choice(brief, mount="stiff")
    assert found.tried == 1
    assert found.ranked[0][0].offered.bought == worse


def test_what_stops_a_bought_one_is_told_by_its_name(offered: Brief) -> None:
    """It leaves 0.77 of the belts' resonance, as the ring that it is like; others leave more."""
    sheet = offered.damper.mounts[0]
    tall = replace(sheet, name="tall", thickness=sheet.thickness + 16 * MM)
    found = choice(with_mounts(offered, sheet, tall, belt_ring=0.79))
    assert found.declined == (
        ("tall", "the shaft's length"),
        (sheet.name, "what it leaves of the belt's resonance"),
    )
    assert all(each[0].offered.bought is None for each in found.ranked)
