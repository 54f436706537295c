"""The printer as a body: sums of boxes, lumps or typed figures, what comes and goes."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from isolator.brief import Brief, read_brief_text
from isolator.vibration.pieces import box_inertia, combine
from isolator.vibration.printer import FRAME_FACTOR, build_printer

HEAD = """
name = "Frame of three boxes"
[printer]
size = ["420 mm", "450 mm", "510 mm"]
"""
TAIL = """
[motion]
layout = "crossed-belt"
speeds = ["50 mm/s", "90 mm/s"]
"""
# mass [kg], middle [m], sides [m]: all unequal
BOXES = (
    (6.3, (0.012, -0.031, 0.205), (0.41, 0.38, 0.33)),
    (2.1, (-0.104, 0.087, 0.061), (0.12, 0.21, 0.09)),
    (1.7, (0.023, 0.149, 0.402), (0.36, 0.05, 0.07)),
)


def brief(*middle: str) -> Brief:
    return read_brief_text(HEAD + "".join(middle) + TAIL, "brief.toml")


def lumps() -> str:
    return "".join(
        f'[[printer.lump]]\nname = "box {number}"\nmass = "{mass} kg"\n'
        f"position = {[f'{p} m' for p in place]}\nsize = {[f'{s} m' for s in size]}\n"
        for number, (mass, place, size) in enumerate(BOXES)
    )


def meshed(place: tuple, size: tuple, mass: float) -> trimesh.Trimesh:
    box = trimesh.creation.box(extents=size)
    box.apply_translation(place)
    box.density = mass / np.prod(size)
    return box


def test_lumps_add_up_as_solids_integrated_over_their_surface() -> None:
    # trimesh integrates over the triangles of a mesh: no parallel-axis theorem of ours
    solids = [meshed(place, size, mass) for mass, place, size in BOXES]
    mass = sum(solid.mass for solid in solids)
    com = sum(solid.mass * solid.center_mass for solid in solids) / mass
    about = np.eye(4)
    about[:3, 3] = com
    inertia = sum(solid.moment_inertia_frame(about) for solid in solids)
    found = build_printer(brief(lumps())).nominal
    assert found.mass == pytest.approx(mass, rel=1e-12)  # rounding
    np.testing.assert_allclose(found.com, com, rtol=1e-9, atol=1e-12)  # rounding
    np.testing.assert_allclose(found.inertia, inertia, rtol=1e-9, atol=1e-12)  # rounding
    assert np.abs(found.inertia[0, 1]) > 1e-3  # the products are there to be wrong


def test_two_points_by_hand() -> None:
    # 3 kg and 1 kg, 0.4 m apart along x: centre 0.1 m from the heavy one, μ·d² = 0.75·0.16
    none = np.zeros((3, 3))
    mass, com, inertia = combine(
        [(3.0, np.array([0.2, 0.1, 0.3]), none), (1.0, np.array([0.6, 0.1, 0.3]), none)]
    )
    assert mass == 4.0
    assert com.tolist() == pytest.approx([0.3, 0.1, 0.3])
    np.testing.assert_allclose(inertia, np.diag([0.0, 0.12, 0.12]), atol=1e-15)  # rounding


def test_typed_figures_overrule_lumps_one_by_one() -> None:
    typed = (
        'center_of_mass = ["7 mm", "-4 mm", "190 mm"]\n'
        'inertia = ["0.31 kg*m^2", "0.27 kg*m^2", "0.22 kg*m^2", "0.01 kg*m^2",'
        ' "-0.02 kg*m^2", "0.03 kg*m^2"]\n'
    )
    found = build_printer(brief(typed, lumps())).nominal
    assert found.mass == pytest.approx(10.1)
    assert found.com.tolist() == pytest.approx([0.007, -0.004, 0.190])
    # Ixx, Iyy, Izz, Ixy, Ixz, Iyz as tensor entries
    tensor = [[0.31, 0.01, -0.02], [0.01, 0.27, 0.03], [-0.02, 0.03, 0.22]]
    np.testing.assert_allclose(found.inertia, tensor, rtol=1e-12)  # rounding
    # the centre alone typed: the tensor stays that of the lumps
    moved = build_printer(brief(typed.splitlines()[0] + "\n", lumps())).nominal
    still = build_printer(brief(lumps())).nominal
    np.testing.assert_allclose(moved.inertia, still.inertia, rtol=1e-12)  # rounding


def test_a_mass_alone_is_a_box_of_the_outside() -> None:
    found = build_printer(brief('mass = "9.3 kg"\n')).nominal
    # m/12·(b² + c²) of a uniform cuboid, any handbook, times the frame factor
    b, d, h = 0.42, 0.45, 0.51
    square = np.array([d**2 + h**2, b**2 + h**2, b**2 + d**2])
    expected = FRAME_FACTOR * 9.3 / 12 * square
    np.testing.assert_allclose(found.inertia, np.diag(expected), rtol=1e-12)  # rounding
    np.testing.assert_allclose(found.inertia / FRAME_FACTOR, box_inertia(9.3, (b, d, h)))


def test_extras_run_from_nothing_to_all() -> None:
    spool = (
        '[[printer.extra]]\nname = "spool"\nmass = ["0.2 kg", "1.4 kg"]\n'
        'position = ["150 mm", "-120 mm", "480 mm"]\n'
    )
    part = (
        '[[printer.extra]]\nname = "print"\nmass = ["0 kg", "0.6 kg"]\n'
        'position = ["-20 mm", "30 mm", "210 mm"]\n'
    )
    bare = build_printer(brief(lumps())).nominal
    machine = build_printer(brief(lumps(), spool, part))
    places = np.array([[0.15, -0.12, 0.48], [-0.02, 0.03, 0.21]])
    carried = {"light": (0.2, 0.0), "nominal": (0.8, 0.3), "heavy": (1.4, 0.6)}
    for case in machine.cases:
        extra = np.array(carried[case.name])
        total = bare.mass + extra.sum()
        com = (bare.mass * bare.com + extra @ places) / total
        assert case.mass == pytest.approx(total, rel=1e-12)  # rounding
        np.testing.assert_allclose(case.com, com, rtol=1e-12)  # rounding
        # Σ m(|p|² I − p pᵀ) about the frame's own origin is what each case must hold there
        first = bare.inertia + _about_origin(bare.mass, bare.com)
        first = first + sum(_about_origin(m, p) for m, p in zip(extra, places, strict=True))
        held = case.inertia + _about_origin(case.mass, case.com)
        np.testing.assert_allclose(held, first, rtol=1e-12)  # rounding


def _about_origin(mass: float, place: np.ndarray) -> np.ndarray:
    return mass * (place @ place * np.eye(3) - np.outer(place, place))
