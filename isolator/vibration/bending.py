"""How the printer's top bends against its base: what rides on the top, how stiffly it is held."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.brief import Frame, Printer
from isolator.brief.frame import KINDS, RIGID
from isolator.physics.arrays import Array
from isolator.physics.bodies.frame import Racking, Top, held_stiffness, racking
from isolator.physics.bodies.frame_estimate import box_stiffness
from isolator.vibration.pieces import Piece, above, combine, point

MIDDLE = 0.5
"""Share of the printer's height above which things ride on the top."""
CENTRES = (0.25, 0.75)
"""Heights of base and top over the printer's, where nothing more is known: each uniform."""
LIKELY = (0.15, 0.75)
"""Share of the mass that a top has, at least and at most; estimated."""
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

    @property
    def scales(self) -> tuple[float, float, float]:
        """Return the factors on the frame's frequencies: low, nominal, high."""
        return (1.0 / self.spread, 1.0, self.spread)


def upper_half(printer: Printer, body: Piece, wished: float | None) -> Piece:
    """Return the printer's top without extras; `wished` [kg] is its mass, where it was told.

    Lumps are cut at half the height; where there are none, or `body` is not their sum, two
    bodies of the same mass, centre and inertia as `body` are made, each round a quarter's height.
    """
    height = MIDDLE * printer.size[2]
    own = printer.center_of_mass is None and printer.inertia is None and wished is None
    if printer.lumps and own:
        cut = [above(lump.mass, lump.position, lump.size, height) for lump in printer.lumps]
        kept = [piece for piece in cut if piece is not None]
        share = sum(piece[0] for piece in kept) / body[0]
        if LIKELY[0] <= share <= LIKELY[1]:
            return combine(kept)
    return _split(body, printer.size[2], wished)


def _split(body: Piece, height: float, wished: float | None) -> Piece:
    """Return the upper of two bodies that together have the mass, centre and inertia of one."""
    mass, com, inertia = body
    low, high = (share * height for share in CENTRES)
    share = (com[2] - low) / (high - low) if wished is None else wished / mass
    share = float(np.clip(share, *LIKELY)) if wished is None else share
    # m·a²·s/(1 − s) of the inertia is that of two centres apart
    apart = mass * share / (1.0 - share)
    most = np.sqrt(ROOM * float(np.linalg.eigvalsh(inertia)[0]) / apart)
    lift = float(np.clip(high - com[2], 0.0, most))
    left = inertia - apart * lift**2 * np.diag([1.0, 1.0, 0.0])
    return share * mass, com + np.array([0.0, 0.0, lift]), share * left


def build_bending(
    frame: Frame, printer: Printer, body: Piece, extras: Sequence[tuple[float, Array]]
) -> Bending | None:
    """Return how the frame bends with `extras` (mass, place) on it; None for a rigid one.

    `body` is the printer without them. What is tapped was tapped without them too.
    """
    if frame.kind == RIGID:
        return None
    bare, middle = upper_half(printer, body, frame.top_mass), MIDDLE * printer.size[2]
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
