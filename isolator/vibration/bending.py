"""How the printer's top bends against its base: what rides on the top, how stiffly it is held."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.brief import Frame, Motion, Printer
from isolator.brief.frame import KINDS, RIGID
from isolator.physics.arrays import Array
from isolator.physics.bodies.frame import Racking, Top, held_stiffness, racking
from isolator.physics.bodies.frame_estimate import box_stiffness
from isolator.vibration.drives import move_points, moved_masses
from isolator.vibration.pieces import Piece, above, combine, point

MIDDLE = 0.5
"""Share of the printer's height above which things ride on the top."""
CENTRES = (0.25, 0.75)
"""Heights of base and top over the printer's, where nothing more is known: each uniform."""
LIKELY = (0.15, 0.75)
"""Share of the mass that a top has, at least and at most; estimated."""
MOST = 0.9
"""Share of the mass that a top has at most, whatever moves on it."""
HEAVIER = 1.25
"""How many times as heavy as what moves on it a top is at least: it holds rails and motors too."""
ROOM = 0.8
"""Of what inertia lets the centres of base and top lie apart; the rest keeps them bodies."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bending:
    """A printer's top against its base, in one state of its extras."""

    top: Top
    stiffness: Array  # (3,) along x, y [N/m] and in twist [N·m/rad], nominal
    loss: Array  # (3,) loss factors
    spread: float  # factor either way on the frame's frequencies
    middle: float  # what lies higher rides on the top [m]

    def racking(self, reference: Array, scale: float = 1.0) -> Racking:
        """Return the three coordinates of bending with all frequencies times `scale`."""
        lossy = scale**2 * self.stiffness * (1.0 + 1j * self.loss)
        return racking(self.top, reference, lossy)


def upper_half(printer: Printer, body: Piece, wished: float | None, moving: float) -> Piece:
    """Return the printer's top without extras; `wished` [kg] is its mass, where it was told.

    `moving` [kg] is what moves on it: a top is heavier than that.

    Lumps are cut at half the height; where there are none, or `body` is not their sum, two
    bodies of the same mass, centre and inertia as `body` are made, each round a quarter's height.
    """
    height = MIDDLE * printer.size[2]
    own = printer.center_of_mass is None and printer.inertia is None and wished is None
    if printer.lumps and own:
        cut = [above(lump.mass, lump.position, lump.size, height) for lump in printer.lumps]
        kept = [piece for piece in cut if piece is not None]
        mass = sum(piece[0] for piece in kept)
        if LIKELY[0] <= mass / body[0] <= LIKELY[1] and mass > HEAVIER * moving:
            return combine(kept)
    return _split(body, printer.size[2], wished, HEAVIER * moving)


def _split(body: Piece, height: float, wished: float | None, least: float) -> Piece:
    """Return the upper of two bodies that together have the mass, centre and inertia of one."""
    mass, com, inertia = body
    low, high = (share * height for share in CENTRES)
    share = float(np.clip((com[2] - low) / (high - low), *LIKELY))
    share = min(max(share if wished is None else wished / mass, least / mass), MOST)
    # m·a²·s/(1 − s) of the inertia is that of two centres apart
    apart = mass * share / (1.0 - share)
    most = np.sqrt(ROOM * float(np.linalg.eigvalsh(inertia)[0]) / apart)
    lift = float(np.clip(high - com[2], 0.0, most))
    left = inertia - apart * lift**2 * np.diag([1.0, 1.0, 0.0])
    return share * mass, com + np.array([0.0, 0.0, lift]), share * left


def build_bending(
    frame: Frame,
    printer: Printer,
    motion: Motion,
    body: Piece,
    extras: Sequence[tuple[float, Array]],
) -> Bending | None:
    """Return how the frame bends with `extras` (mass, place) on it; None for a rigid one.

    `body` is the printer without them. What is tapped was tapped without them too.
    """
    if frame.kind == RIGID:
        return None
    middle = MIDDLE * printer.size[2]
    moved = zip(moved_masses(motion), move_points(motion), strict=True)
    moving = max((mass for mass, place in moved if place[2] > middle), default=0.0)
    bare = upper_half(printer, body, frame.top_mass, moving)
    carried = [point(mass, place) for mass, place in extras if place[2] > middle and mass > 0.0]
    return Bending(
        top=Top(*combine([bare, *carried])),
        stiffness=_stiffness(frame, printer, Top(*bare)),
        # what was not tapped has the last one's; the loss factor is twice the ratio
        loss=2.0 * np.array([*frame.damping, *frame.damping[-1:] * 2][:3]),
        spread=frame.spread,
        middle=middle,
    )


def _stiffness(frame: Frame, printer: Printer, bare: Top) -> Array:
    """Return the stiffness (3,) of the top against its base, from taps or from its kind."""
    usual = np.array(box_stiffness(printer.size, KINDS[frame.kind].shear))
    if not frame.frequency:
        return usual
    told = list(frame.frequency)
    along_x, along_y = told[0], told[min(1, len(told) - 1)]
    # what was not tapped stands to the rest as it usually does
    guess = np.sqrt(usual / held_stiffness(bare, np.ones(3)))
    twist = guess[2] * np.sqrt(along_x * along_y / (guess[0] * guess[1]))
    return held_stiffness(bare, np.array([along_x, along_y, *told[2:], twist][:3]))
