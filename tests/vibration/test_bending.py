"""A printer whose frame bends: its two halves, what rides on which, and the source they make."""

from __future__ import annotations

import re
from dataclasses import replace
from math import inf, tau

import numpy as np
import pytest
from briefs import EXAMPLES, ROOM

from isolator.brief import Brief, read_brief_text
from isolator.cards import load_cards
from isolator.physics.bodies.condense import condense
from isolator.physics.bodies.frame import Top
from isolator.physics.bodies.frame_estimate import box_stiffness
from isolator.physics.bodies.rigid import cross_matrix, mass_matrix
from isolator.physics.drive.chain import Mounted, augment
from isolator.vibration.drives import AXES
from isolator.vibration.excitation import Excitation, build_excitation, force_at
from isolator.vibration.frame_mode import first_frame_mode
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.pieces import combine
from isolator.vibration.printer import MassCase, build_printer
from isolator.vibration.promise import bending_source, promised
from isolator.vibration.source import motor_source, push_source
from isolator.vibration.system import build

FREQUENCY = np.array([1.0, 9.0, 14.0, 16.3, 26.0, 43.0, 75.0, 140.0, 400.0])


def read(text: str, *frame: str) -> Brief:
    return read_brief_text("\n".join([text, "[frame]", *frame, ""]), "brief.toml")


def example(name: str, *frame: str) -> Brief:
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    return read(re.sub(r"(?ms)^\[frame\].*?(?=^\[)", "", text), *frame)


def top_of(case: MassCase) -> Top:
    assert case.bending is not None
    return case.bending.top


def about(case: MassCase, top: Top) -> np.ndarray:
    """Mass matrix (6, 6) of a case's base: what is left of the whole without the top."""
    carry = np.eye(6)
    carry[:3, 3:] = -cross_matrix(top.centre - case.com)
    upper = carry.T @ mass_matrix(top.mass, top.inertia) @ carry
    return mass_matrix(case.mass, case.inertia) - upper


@pytest.mark.parametrize("name", ["reading-room", "story-corner", "workshop"])
def test_base_and_top_are_bodies_that_add_up_to_the_printer(name: str) -> None:
    for case in build_printer(example(name)).cases:
        top = top_of(case)
        base = about(case, top)
        # the base is a body: its inertia about its own centre is that of some mass
        mass = base[0, 0]
        centre = case.com + np.array([base[1, 5], base[2, 3], base[0, 4]]) / mass
        held = base[3:, 3:] + mass * np.linalg.matrix_power(cross_matrix(centre - case.com), 2)
        assert np.linalg.eigvalsh(held)[0] > 0.0
        assert top.mass + mass == pytest.approx(case.mass)
        assert centre[2] < case.com[2] < top.centre[2]


def test_lumps_are_cut_at_half_the_height() -> None:
    brief = example("workshop")
    found = top_of(build_printer(brief).light)
    # every lump as 40³ points, those above the middle summed
    steps = (np.arange(40) + 0.5) / 40 - 0.5
    grid = np.stack(np.meshgrid(steps, steps, steps, indexing="ij"), axis=-1).reshape(-1, 3)
    points, masses = [], []
    for lump in brief.printer.lumps:
        points.append(np.array(lump.position) + grid * np.array(lump.size))
        masses.append(np.full(len(grid), lump.mass / len(grid)))
    for extra in brief.printer.extras:
        points.append(np.array([extra.position]))
        masses.append(np.array([extra.mass_low]))
    place, mass = np.concatenate(points), np.concatenate(masses)
    upper = place[:, 2] > brief.printer.size[2] / 2
    place, mass = place[upper], mass[upper]
    com = mass @ place / mass.sum()
    arm = place - com
    inertia = np.einsum("n,nij->ij", mass, -np.linalg.matrix_power(cross_matrix(arm), 2))
    # a grid of 40 places the cut to 1/80 of a lump's height
    assert found.mass == pytest.approx(mass.sum(), rel=0.03)
    np.testing.assert_allclose(found.centre, com, atol=0.01)
    np.testing.assert_allclose(found.inertia, inertia, rtol=0.04, atol=0.01)


def test_a_top_that_was_weighed_weighs_that() -> None:
    top = top_of(build_printer(read(ROOM, 'top_mass = "3.4 kg"')).light)
    assert top.mass == pytest.approx(3.4)


def test_a_top_is_heavier_than_what_moves_on_it() -> None:
    heavy = ROOM.replace('gantry_mass = "0.41 kg"', 'gantry_mass = "5.2 kg"')
    case = build_printer(read(heavy)).light
    assert top_of(case).mass == pytest.approx(1.25 * 5.54)
    # coordinates of racking and of the gantry together: energy stays positive
    assert case.bending is not None
    excitation = build_excitation(read(heavy))
    for scale in (0.1, 1.0):
        found = motor_source(excitation, case, np.array([1e5]), frame=scale).dynamic[0, 0]
        assert np.linalg.eigvalsh(-found.real)[0] > 0.0


def test_taps_are_what_the_printer_shows_with_its_base_held() -> None:
    brief = read(ROOM, 'frequency = ["21 Hz", "26 Hz"]', "damping = [0.02, 0.03]")
    light = build_printer(brief).light
    bending = light.bending
    assert bending is not None
    racking = bending.racking(light.com)
    held = np.sqrt(np.diag(racking.stiffness).real / np.diag(racking.mass)) / tau
    # the spool, which the printer was tapped without, is not on it in its light state
    np.testing.assert_allclose(held[:2], [21.0, 26.0])
    usual = np.array(box_stiffness(brief.printer.size, 0.0)) / np.diag(racking.mass)
    assert held[2] ** 2 / (21.0 * 26.0) == pytest.approx(usual[2] / np.sqrt(usual[0] * usual[1]))
    np.testing.assert_allclose(bending.loss, [0.04, 0.06, 0.06])
    heavy = build_printer(brief).heavy
    assert heavy.bending is not None
    np.testing.assert_allclose(heavy.bending.stiffness, bending.stiffness)
    assert top_of(heavy).mass == pytest.approx(top_of(light).mass + 1.2)


def test_panels_make_a_frame_stiffer() -> None:
    modes = [
        first_frame_mode(build_printer(read(ROOM, f'kind = "{kind}"')).nominal)
        for kind in ("open", "enclosed", "panelled", "rigid")
    ]
    assert modes == sorted(modes)
    assert modes[-1] == inf
    assert modes[0] > 20.0  # a frame of slotted profiles rings above that; from memory


@pytest.mark.parametrize("name", ["reading-room", "story-corner", "workshop"])
def test_the_source_of_a_frame_that_hardly_gives_is_that_of_a_rigid_one(name: str) -> None:
    bent, rigid = example(name), example(name, 'kind = "rigid"')
    excitation, case = build_excitation(bent), build_printer(bent).nominal
    still = build_printer(rigid).nominal
    assert still.bending is None
    given = motor_source(excitation, case, FREQUENCY, frame=1e5)
    wanted = motor_source(excitation, still, FREQUENCY)
    scale = np.abs(wanted.dynamic).max(axis=(-1, -2), keepdims=True)
    np.testing.assert_allclose(given.dynamic / scale, wanted.dynamic / scale, atol=1e-5)
    np.testing.assert_allclose(given.blocked, wanted.blocked, rtol=1e-4, atol=1e-6)
    # and at its own stiffness it is another
    assert np.abs(motor_source(excitation, case, FREQUENCY).dynamic / scale).max() > 1.5


def on_rubber(excitation: Excitation) -> Mounted:
    """The second motor on a damper."""
    _, motor = excitation.belts[1]
    return Mounted(
        drive=1,
        com=np.array(motor.position),
        mass=mass_matrix(motor.mass, 1e-4 * np.diag([1.0, 1.1, 0.9])),
        stiffness=np.diag([4e4, 5e4, 3e5, 40.0, 50.0, 20.0]) * (1 + 0.1j),
        belt=0.04 * AXES[motor.axis],
        pull=np.array(motor.pull),
        wrap=motor.wrap,
    )


@pytest.mark.parametrize("damped", [False, True])
def test_the_source_is_that_of_two_bodies_in_their_own_coordinates(damped: bool) -> None:
    """Base and top with six coordinates each, tied together afterwards; motors on dampers too."""
    brief = read(ROOM)  # motors, tool and gantry all ride on its top
    excitation, case = build_excitation(brief), build_printer(brief).nominal
    top, bending = top_of(case), case.bending
    assert bending is not None
    count = len(excitation.drives)
    mounted = [on_rubber(excitation)] if damped else []
    own, inertia = augment(
        mass_matrix(top.mass, top.inertia),
        top.centre,
        excitation.drives,
        excitation.carriage,
        mounted,
    )
    # coordinates of the top and its drives, of the base about the whole's centre, of the racking
    size = len(inertia)
    stiffness = np.zeros((size + 9, size + 9), dtype=complex)
    mass = np.zeros((size + 9, size + 9))
    stiffness[:size, :size], mass[:size, :size] = own, inertia
    mass[size : size + 6, size : size + 6] = about(case, top)
    stiffness[-3:, -3:] = np.diag(bending.stiffness * (1 + 1j * bending.loss))
    # what they are made of: the frame's six, rotors and masses, racking
    tie = np.zeros((size + 9, size + 3))
    tie[:6, :6] = np.eye(6)
    tie[:3, 3:6] = -cross_matrix(top.centre - case.com)
    tie[0, -3] = tie[1, -2] = tie[5, -1] = 1.0
    tie[6:size, 6:size] = np.eye(size - 6)
    tie[size : size + 6, :6] = np.eye(6)
    tie[-3:, -3:] = np.eye(3)
    torque = np.zeros((size + 9, count))
    torque[size - 2 - count : size - 2] = np.eye(count)
    wanted = condense(tie.T @ stiffness @ tie, tie.T @ mass @ tie, tau * FREQUENCY, tie.T @ torque)
    given = motor_source(excitation, case, FREQUENCY, mounted=mounted)
    np.testing.assert_allclose(given.dynamic[0], wanted.dynamic, rtol=1e-9, atol=1e-6)
    np.testing.assert_allclose(given.blocked[0], wanted.blocked, rtol=1e-9, atol=1e-12)


def test_a_push_on_the_base_does_not_ride_on_the_top() -> None:
    brief = read(ROOM)
    excitation, case = build_excitation(brief), build_printer(brief).nominal
    low, high = np.array([0.1, 0.05, 0.10]), np.array([0.1, 0.05, 0.40])
    pushes = [force_at(AXES["x"], place) for place in (low, high)]
    blocked = push_source(excitation, case, FREQUENCY, pushes).blocked[0]
    # held, the base passes on the low push as it is, and of the high one what racking lets by
    assert blocked[:, 0, 0] == pytest.approx(np.ones(len(FREQUENCY)))
    np.testing.assert_allclose(blocked[0, 0, 1], 1.0, rtol=0.02)
    assert np.abs(blocked[3, 0, 1]) > 10.0  # at the frame's own mode
    assert np.abs(blocked[-1, 0, 1]) < 0.01  # far above it
    down = push_source(excitation, case, FREQUENCY, [force_at(AXES["z"], high)])
    np.testing.assert_allclose(down.blocked[0, :, 2, 0], 1.0)  # posts do not shorten


def test_a_bed_that_moves_low_rides_on_the_base() -> None:
    brief = example("story-corner")
    excitation, case = build_excitation(brief), build_printer(brief).nominal
    blocked = motor_source(excitation, case, FREQUENCY).blocked[0]
    rigid = motor_source(excitation, replace(case, bending=None), FREQUENCY).blocked[0]
    carriage, bed = 0, 1
    np.testing.assert_allclose(blocked[:, :, bed], rigid[:, :, bed], rtol=1e-9, atol=1e-12)
    assert np.abs(blocked[:, 0, carriage] / rigid[:, 0, carriage] - 1.0).max() > 0.5


def test_nothing_is_promised_beyond_what_a_rigid_frame_gives_at_the_frames_mode() -> None:
    brief = read(ROOM)
    excitation, case = build_excitation(brief), build_printer(brief).nominal
    assert case.bending is not None
    stand = build_now_stand(brief, load_cards())
    assert stand is not None
    system = build(stand.settled(case, "nominal")[0], case)
    low, high = (
        float(promised(system, bending_source(excitation, replace(case, bending=each)), 60.0)[0])
        for each in (
            replace(case.bending, stiffness=scale * case.bending.stiffness) for scale in (4.0, 64.0)
        )
    )
    # a frame that bends four times as high: by then a rigid printer has won another 24 dB on feet
    # without loss; on rubber that stiffens and is damped, about 20 dB a decade
    assert 3.0 < low < high < 60.0
    assert 20 * np.log10(4.0) < high - low < 40 * np.log10(4.0)
    assert promised(system, None, 30.0).tolist() == [30.0]
    soft = replace(case.bending, stiffness=1e-4 * case.bending.stiffness)
    assert promised(system, bending_source(excitation, replace(case, bending=soft)), 30.0) == [0.0]


def test_the_first_mode_is_that_of_two_masses_that_float() -> None:
    # pushed along x through both centres there is no turning: f = √(k/m_t·(1 + m_t/m_b))/2π
    top = Top(3.0, np.array([0.0, 0.0, 0.0]), np.eye(3))
    brief = read(ROOM)
    bending = build_printer(brief).nominal.bending
    assert bending is not None
    stiff = np.array([4e4, 9e4, 1e6])
    flat = replace(bending, top=top, stiffness=stiff)
    mass, com, inertia = combine([tuple(top), (5.0, np.zeros(3), np.eye(3))])  # type: ignore[list-item]
    case = MassCase(name="nominal", mass=mass, com=com, inertia=inertia, bending=flat)
    expected = np.sqrt(4e4 / 3.0 * (1 + 3.0 / 5.0)) / tau
    assert first_frame_mode(case) == pytest.approx(expected)
    assert first_frame_mode(case, 0.5) == pytest.approx(0.5 * expected)
