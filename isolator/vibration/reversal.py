"""What reversals do to the printer: sway at the tool and at the feet, tipping, sliding."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from isolator.brief import Motion
from isolator.physics.arrays import Array
from isolator.physics.bodies import reversal
from isolator.physics.bodies.first_strokes import WorstSway, worst_sway
from isolator.physics.bodies.rigid import cross_matrix
from isolator.physics.bodies.statics import G
from isolator.physics.bodies.zigzag import quick_sway
from isolator.vibration.cases import NOMINAL, Cases, Key
from isolator.vibration.drives import AXES, move_points, moved_masses
from isolator.vibration.excitation import Excitation
from isolator.vibration.printer import MassCase, RigidPrinter
from isolator.vibration.results import Stability, Sway
from isolator.vibration.system import Modes, System, gravity_factor

MOVES = ("x", "y")
Swayed = dict[Key, WorstSway]


def pushes(motion: Motion, case: MassCase) -> Array:
    """Return force and moment (2, 6) about the centre of mass per unit of acceleration [kg, kg·m].

    One row for moves along x, one for moves along y.
    """
    rows = []
    for axis, mass, point in zip(MOVES, moved_masses(motion), move_points(motion), strict=True):
        force = -mass * AXES[axis]
        rows.append(np.concatenate([force, np.cross(point - case.com, force)]))
    return np.array(rows)


def _tool(motion: Motion, system: System, cases: Sequence[MassCase]) -> Array:
    """Return where the tool works (n, 1, 3) from the centre of mass [m]; `cases` one or n."""
    tool = np.array([0.0, 0.0, motion.gantry_height])
    there = np.array([[tool - case.com] for case in cases])
    return np.broadcast_to(there, (len(system.arms), 1, 3))


def sway(
    excitation: Excitation, system: System, modes: Modes, speeds: Sequence[float]
) -> WorstSway:
    """Return the worst sway from rest on of n systems at `speeds`, moves along x and y: (n, 2).

    Points: where the tool works, and the top of every foot. Motion of the frame; no error of the
    print, which rides on it.
    """
    motion = excitation.motion
    return worst_sway(
        modes.frequency,
        modes.shapes,
        modes.damping,
        _pushed(motion, system, [system.case]),
        np.concatenate([_tool(motion, system, [system.case]), system.arms], axis=1),
        speeds,
        motion.acceleration,
        excitation.strokes,
    )


def quick_tool_sway(
    excitation: Excitation,
    system: System,
    modes: Modes,
    speeds: Sequence[float],
    cases: Sequence[MassCase] = (),
) -> Array:
    """Return the worst sway (n,) [m] at the tool's height over both axes, of many systems.

    `cases`: the mass case of each, where they are not all the system's.
    """
    each, motion = cases or [system.case], excitation.motion
    moved = quick_sway(
        modes.frequency,
        modes.shapes,
        modes.damping,
        _pushed(motion, system, each),
        _tool(motion, system, each),
        speeds,
        motion.acceleration,
        excitation.strokes,
    )
    reach: Array = moved[..., 0].max(axis=1)
    return reach


def quick_shaken(
    excitation: Excitation, states: Sequence[tuple[System, Modes]], speeds: Sequence[float]
) -> tuple[Array, Array]:
    """Return of the same n sets of feet in t states the worst sway (t, n) [m] at the tool's height,
    and the feet's force in that zigzag over the push (t, n), as `force_factor` has it."""
    motion, found = excitation.motion, [modes for _, modes in states]
    points = [
        np.concatenate([_tool(motion, system, [system.case]), system.arms], axis=1)
        for system, _ in states
    ]
    moved = quick_sway(
        np.concatenate([modes.frequency for modes in found]),
        np.concatenate([modes.shapes for modes in found]),
        np.concatenate([modes.damping for modes in found]),
        np.concatenate([_pushed(motion, system, [system.case]) for system, _ in states]),
        np.concatenate(points),
        speeds,
        motion.acceleration,
        excitation.strokes,
    )
    each = moved.reshape(len(states), -1, *moved.shape[1:])
    felt = [_felt(motion, *state, part[..., 1:]) for state, part in zip(states, each, strict=True)]
    return each[..., 0].max(axis=-1), np.array(felt)


def _pushed(motion: Motion, system: System, cases: Sequence[MassCase]) -> Array:
    """Return `pushes` (n, 2, 6) of every system; `cases` one or n."""
    both = np.array([pushes(motion, case) for case in cases])
    return np.broadcast_to(both, (len(system.arms), *both.shape[1:]))


def step_sway(motion: Motion, system: System, modes: Modes) -> float:
    """Return the peak [m] at the tool's height after one sudden push, a batch of one.

    Each mode overshoots its own static share; their peaks are added up, an upper bound.
    """
    tool = np.array([0.0, 0.0, motion.gantry_height]) - system.case.com
    shapes, stiff = modes.shapes[0], (2.0 * np.pi * modes.frequency[0]) ** 2
    overshoot = reversal.step_factor(np.clip(modes.damping[0], 0.0, 0.99))
    there = shapes[:3] - cross_matrix(tool) @ shapes[3:]
    worst = 0.0
    for row, push in enumerate(pushes(motion, system.case)):
        shares = there[row] * (shapes.T @ push) / stiff * overshoot
        worst = max(worst, motion.acceleration * float(np.abs(shares).sum()))
    return worst


def force_factor(motion: Motion, system: System, modes: Modes, found: WorstSway) -> float:
    """Return the horizontal force of all feet in the worst zigzag over the push that makes it.

    An upper bound: each foot's whole motion times its stiffness at the lowest mode. Of zigzags that
    move the tool about equally far the hardest counts.
    """
    return max(float(_felt(motion, system, modes, each[..., 1:])[0]) for each in found.tied)


def _felt(motion: Motion, system: System, modes: Modes, moved: Array) -> Array:
    """Return that force over its push (n,), of feet that move by `moved` (n, 2, s) [m]."""
    factor = system.factor(np.maximum(modes.frequency[:, :1], 1e-3))
    worst = np.ones(len(factor))
    for row, mass in enumerate(moved_masses(motion)):
        springs = factor * system.feet.linear[:, :, row]
        force = (springs * moved[:, row]).sum(axis=1)
        worst = np.maximum(worst, force / (mass * motion.acceleration))
    return worst


def slip_margin(motion: Motion, case: MassCase, friction: float) -> float:
    """Return friction over the largest push of a reversal, static."""
    mass = max(moved_masses(motion))
    return float(reversal.slip_margin(mass, motion.acceleration, case.mass * G, friction))


def tip_margin(motion: Motion, case: MassCase, positions: Array, height: float) -> float:
    """Return by how much the hardest push may grow until the printer tips.

    `positions` (s, 2) [m] of the feet, `height` [m] of the printer's underside over the desk.
    """
    margins = []
    for axis, mass, point in zip(MOVES, moved_masses(motion), move_points(motion), strict=True):
        for sign in (1.0, -1.0):
            force = sign * mass * motion.acceleration * AXES[axis][:2]
            margins.append(
                reversal.tip_margin(
                    positions, case.com[:2], case.mass * G, force, point[2] + height
                )
            )
    return float(np.min(margins))


def swayed(excitation: Excitation, cases: Cases, speeds: Sequence[float]) -> Swayed:
    """Return the worst zigzag of every case: how far it moves the tool and each foot."""
    return {key: sway(excitation, case.system, case.modes, speeds) for key, case in cases.items()}


def told_sway(motion: Motion, cases: Cases, found: Swayed, limit: float) -> Sway:
    """Return the worst sway over all cases, with the move that makes it; `limit` [m] is told."""
    worst = max(found.values(), key=lambda each: float(each.peak[0, :, 0].max()))
    axis = int(np.argmax(worst.peak[0, :, 0]))
    return Sway(
        worst=float(worst.peak[0, axis, 0]),
        at_feet=float(worst.peak[0, axis, 1:].max()),
        axis=MOVES[axis],
        stroke=float(worst.stroke[0, axis]),
        speed=float(worst.speed[0, axis]),
        limit=limit,
        step=max(step_sway(motion, case.system, case.modes) for case in cases.values()),
    )


def stability(
    motion: Motion,
    printer: RigidPrinter,
    cases: Cases,
    found: Swayed,
    *,
    height: float,
    friction: float,
) -> Stability:
    """Return the margins; `height` [m] is that of the printer's underside over the desk, `friction`
    the coefficient between foot and desk.

    Tip and slip margins are static; `force_factor` says how much more the feet feel when a zigzag
    meets a sway mode, and the checks divide by it.
    """
    places = cases[NOMINAL].system.feet.centres[0, :, :2]
    factors = [
        force_factor(motion, case.system, case.modes, found[key]) for key, case in cases.items()
    ]
    return Stability(
        tip_margin=min(tip_margin(motion, case, places, height) for case in printer.cases),
        slip_margin=min(slip_margin(motion, case, friction) for case in printer.cases),
        force_factor=max(factors),
        gravity_factor=min(float(gravity_factor(case.system)[0]) for case in cases.values()),
    )
