"""A light printer that recoils from its belt drives, against a multibody code, all layouts.

From a brief to the floor: the product's source and feet on one side; on the other the multibody
code (exudyn) with frame, rotors, gantry, tool and bed as bodies in joints, and belts as strands
that run from a pulley's rim over idlers to what they move, two to a belt.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest
from multibody import Body, Joint, Spring, linearised, merged, moved, strand

from isolator.brief import read_brief_text
from isolator.physics.bodies.rigid import GROUND
from isolator.vibration.excitation import Excitation, build_excitation
from isolator.vibration.isolation import floor_energy
from isolator.vibration.printer import MassCase, build_printer
from isolator.vibration.source import Source, motor_source
from isolator.vibration.supports import FeetBatch
from isolator.vibration.system import System, build

TAU = 2.0 * np.pi
Strands = tuple[np.ndarray, np.ndarray]
X, Y, Z = np.eye(3)
BRIEF = """
name = "Light printer"
[printer]
mass = "3.4 kg"
size = ["250 mm", "270 mm", "290 mm"]
center_of_mass = ["5 mm", "-8 mm", "140 mm"]
inertia = [
  "0.058 kg*m^2", "0.053 kg*m^2", "0.047 kg*m^2",
  "0.0011 kg*m^2", "-0.0016 kg*m^2", "0.0009 kg*m^2"
]
[frame]
kind = "rigid"
[motion]
layout = "{layout}"
speeds = ["60 mm/s"]
tool_mass = "0.31 kg"
gantry_mass = "0.34 kg"
gantry_height = "255 mm"
bed_mass = "0.62 kg"
bed_height = "70 mm"
belt_stiffness = "57 N/mm"
"""
MOTOR = """
[[motor]]
name = "{name}"
drives = "{drives}"
position = ["{x} mm", "{y} mm", "{z} mm"]
axis = "z"
holding_torque = "0.34 N*m"
rotor_inertia = "47 g*cm^2"
"""
AT = {
    "crossed-belt": [("A", "x", 113, 121, 262), ("B", "y", 113, -118, 249)],
    "motor-per-axis": [
        ("x", "x", 109, 3, 258),
        ("left", "y", -97, 122, 250),
        ("right", "y", 95, 119, 247),
    ],
    "moving-bed": [("x", "x", 107, 6, 251), ("y", "y", 11, 124, 66)],
}
FEET = np.array([[0.11, 0.12, -0.02], [-0.1, 0.13, -0.015], [-0.11, -0.12, -0.02], [0.12, -0.1, 0]])
LINEAR = np.array([[2.1e3, 3.4e3, 7e3], [2.9e3, 2.3e3, 6e3], [1.7e3, 2.6e3, 8e3], [3e3, 2e3, 5e3]])
ANGULAR = np.array([[0.5, 0.7, 0.9], [1.1, 0.6, 0.8], [0.4, 1.3, 1.2], [0.9, 0.8, 0.7]])
LOSS = 0.11


class Product(NamedTuple):
    excitation: Excitation
    case: MassCase
    system: System


def product(layout: str) -> Product:
    motors = "".join(
        MOTOR.format(name=name, drives=drives, x=x, y=y, z=z)
        for name, drives, x, y, z in AT[layout]
    )
    brief = read_brief_text(BRIEF.format(layout=layout) + motors, "brief.toml")
    case = build_printer(brief).nominal
    four = np.zeros((1, 4))
    feet = FeetBatch(
        centres=FEET[None],
        linear=LINEAR[None],
        angular=ANGULAR[None],
        loss=four + LOSS,
        ratio=np.ones(1),
        alpha=np.zeros(1),
        reference=np.full(1, 10.0),
        load=four,  # no gravity
        strain=four,
        sag=four,
        buckling=four,
        mass=four,
    )
    return Product(build_excitation(brief), case, build(feet, case))


class Bodies(NamedTuple):
    bodies: list[Body]  # frame first, then the rotors
    joints: list[Joint]
    strands: list[Strands]  # of each belt


def along(bodies: list[Body], rotor: int, rider: int, axis: np.ndarray) -> Strands:
    """Strands of a motor at the far end of an axis: straight to what it pulls, and round an idler.

    Turning on about z it draws its rider on along the axis.
    """
    pulley, way = bodies[rotor].com + 0.03 * Z, -axis
    rim, other = pulley + RADIUS * np.cross(Z, way), pulley - RADIUS * np.cross(Z, way)
    clamp = rim + way * ((bodies[rider].com - rim) @ way)
    direct = [(rotor, rim), (rider, clamp)]
    round_it = [(rotor, other), (0, other + 0.23 * way), (0, rim + 0.23 * way), (rider, clamp)]
    return strand(bodies, direct), strand(bodies, round_it)


RADIUS = 20 * 0.002 / TAU


def crossed(bodies: list[Body], rotor: int, gantry: int, tool: int) -> Strands:
    """Strands of one of two crossed belts, its motor at the right, at the back or the front.

    Both run along the right side to the gantry's idlers or round the far corners, and along the
    gantry to the tool.
    """
    pulley = bodies[rotor].com + 0.03 * Z
    end = np.sign(pulley[1])
    rim = pulley + RADIUS * np.cross(Z, -end * Y)
    other = pulley - RADIUS * np.cross(Z, -end * Y)
    left, middle = -0.11, bodies[gantry].com[1]

    def at(x: float, y: float) -> np.ndarray:
        return np.array([x, y, pulley[2]])

    clamp = at(bodies[tool].com[0], middle)
    direct = [(rotor, rim), (gantry, at(rim[0], middle)), (tool, clamp)]
    corners = [(0, at(other[0], -end * 0.12)), (0, at(left, -end * 0.12))]
    round_it = [(rotor, other), *corners, (gantry, at(left, middle)), (tool, clamp)]
    return strand(bodies, direct), strand(bodies, round_it)


SLIDE_X, SLIDE_Y, SPIN_Z = [0, 1, 1, 1, 1, 1], [1, 0, 1, 1, 1, 1], [1, 1, 1, 1, 1, 0]


def made_of(layout: str, case: MassCase, excitation: Excitation) -> Bodies:
    """The same printer as bodies: what is not a rotor or a moving mass is the frame."""
    motion = excitation.motion
    rotors = [
        Body(0.06, np.array(motor.position), np.diag([1.3e-5, 1.3e-5, motor.rotor_inertia]))
        for _, motor in excitation.belts
    ]
    tool = Body(motion.tool_mass, motion.gantry_height * Z, np.diag([2e-4, 3e-4, 4e-4]))
    if layout == "moving-bed":
        other = Body(motion.bed_mass, motion.bed_height * Z, np.diag([3e-3, 4e-3, 7e-3]))
    else:
        other = Body(motion.gantry_mass, motion.gantry_height * Z, np.diag([1e-4, 2e-3, 2e-3]))
    parts = [*rotors, tool, other]
    minus = [Body(-each.mass, each.com, -each.inertia) for each in parts]
    frame = merged([Body(case.mass, case.com, case.inertia), *minus])
    assert np.linalg.eigvalsh(frame.inertia)[0] > 0.01
    bodies = [frame, *parts]
    at, second = len(rotors) + 1, len(rotors) + 2
    joints = [Joint(0, 1 + one, np.eye(3), SPIN_Z) for one in range(len(rotors))]
    carrier = 0 if layout == "moving-bed" else second
    joints += [
        Joint(carrier, at, np.eye(3), SLIDE_X),
        Joint(0, second, np.eye(3), SLIDE_Y),
    ]
    if layout == "crossed-belt":
        strands = [crossed(bodies, 1 + one, second, at) for one in range(2)]
    else:
        strands = [
            along(bodies, 1 + one, second if belt else at, Y if belt else X)
            for one, (belt, _) in enumerate(excitation.belts)
        ]
    return Bodies(bodies, joints, strands)


def multibody(layout: str, told: Product, frequency: np.ndarray) -> np.ndarray:
    """Squared norm (f, m) of the feet's forces under 1 N·m between each rotor and the frame."""
    excitation = told.excitation
    bodies, joints, strands = made_of(layout, told.case, excitation)
    drives = excitation.drives
    stands = [
        Spring(GROUND, 0, point, np.diag([*linear, *angular]))
        for point, linear, angular in zip(FEET, LINEAR, ANGULAR, strict=True)
    ]
    turned = np.diag([0, 0, 0, 0, 0, 1.0])
    fields = [Spring(0, 1 + one, bodies[1 + one].com, turned) for one in range(len(drives))]
    mass, stiffness, free = linearised(bodies, joints, stands)
    whole = stiffness * (1 + 1j * LOSS)
    for drive, field, rows in zip(drives, fields, strands, strict=True):
        whole = whole + drive.magnetic_stiffness * linearised(bodies, joints, [field])[1]
        whole = whole + sum(drive.belt_stiffness / 2 * np.outer(row, row) for row in rows)
    push = np.zeros((len(mass), len(drives)))
    for one in range(len(drives)):
        push[6 * (1 + one) + 5, one], push[5, one] = 1.0, -1.0
    at_feet = [moved(bodies, 0, point) for point in FEET]
    found = []
    for w in TAU * frequency:
        dynamic = free.T @ (whole - w**2 * mass) @ free
        motion = free @ np.linalg.solve(dynamic, free.T @ push)
        forces = [
            linear[:, None] * (1 + 1j * LOSS) * (rows @ motion)
            for linear, rows in zip(LINEAR, at_feet, strict=True)
        ]
        found.append((np.abs(forces) ** 2).sum(axis=(0, 1)))
    return np.array(found)


@pytest.mark.parametrize("layout", AT)
def test_the_floor_under_a_light_printer_feels_its_recoil(layout: str) -> None:
    told = product(layout)
    excitation, case, system = told
    near = np.arange(30.0, 130.0, 0.05)
    loud = floor_energy(system, motor_source(excitation, case, near))[0]
    peaks = near[np.unique(loud.argmax(axis=0))]  # each motor's belt resonance
    assert ((peaks > 35.0) & (peaks < 125.0)).all()
    frequency = np.sort(
        np.concatenate(
            [[2.7, 6.0, 11.0, 23.0, 160.0, 240.0], *(peaks * s for s in (0.97, 1, 1.04))]
        )
    )
    source = motor_source(excitation, case, frequency)
    found, expected = floor_energy(system, source)[0], multibody(layout, told, frequency)
    assert found.shape == (len(frequency), len(AT[layout]))
    # 1 % of the force is asked; what is left is the code's numerical differentiation
    np.testing.assert_allclose(np.sqrt(found), np.sqrt(expected), rtol=1e-4)
    # a move along the diagonal: crossed belts turn one motor alone, others turn all, phases unknown
    np.testing.assert_allclose(found.sum(axis=1), expected.sum(axis=1), rtol=1e-4)
    # and the frame's recoil is no small thing: the same forces on a frame that does not feel its
    # drives would be off by several dB
    rigid = -((TAU * frequency) ** 2)[:, None, None] * system.mass
    still = Source(frequency=frequency, dynamic=rigid[None].astype(complex), blocked=source.blocked)
    off = 10 * np.log10(floor_energy(system, still)[0] / expected)
    assert np.abs(off).max() > 3.0
