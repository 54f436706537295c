"""A printer that stands on its own feet on a slab: the slab is a body, the printer another."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.condense import Condensed
from isolator.physics.bodies.rigid import (
    Support,
    assemble,
    carried,
    mass_matrix,
    support_matrix,
)
from isolator.physics.bodies.stacked import stacked
from isolator.vibration.pieces import Piece
from isolator.vibration.supports import FeetBatch


class Between(NamedTuple):
    """Factors on the stiffness of the feet between printer and slab, and on their loss factor."""

    stiffness: float = 1.0
    loss: float = 1.0


NOMINAL = Between()


@dataclass(frozen=True, slots=True, kw_only=True)
class OnSlab:
    """Slab, printer and the feet between them, about the centre of mass of both."""

    printer: Array  # (6, 6) mass matrix
    slab: Array  # (6, 6) mass matrix
    elastic: Complex  # (6, 6) static stiffness of the feet between, with their loss
    preload: Array  # (6, 6) what the printer's weight on them adds to it
    across: Array  # (6, 6) and what it couples with the slab's motion
    ratio: float  # dynamic over static stiffness of these feet at `reference`
    alpha: float  # exponent of its rise with frequency
    reference: float  # [Hz]
    spread: Between  # factors either way

    def stand(self, printer: Condensed, frequency: Array, between: Between = NOMINAL) -> Condensed:
        """Return `printer`, as it acts at its own six, on its feet on the slab, at the slab's."""
        omega = 2.0 * math.pi * frequency
        factor = between.stiffness * self.ratio * (frequency / self.reference) ** self.alpha
        elastic = self.elastic.real + 1j * between.loss * self.elastic.imag
        springs = factor[:, None, None] * elastic + self.preload
        return stacked(printer, self.slab, springs, omega, self.across)


def build_on_slab(
    printer: Piece, slab: Piece, feet: FeetBatch, com: Array, spread: Between
) -> OnSlab:
    """Return a printer on `feet` (a batch of one, loaded by it) on a slab; `com` (3,) of both.

    `spread` are the factors either way on what the feet are.
    """
    to_printer, to_slab = carried(printer[1] - com), carried(slab[1] - com)
    centres, linear, angular = feet.centres[0], feet.linear[0], feet.angular[0]
    loads = np.zeros_like(centres)
    loads[:, 2] = feet.load[0]
    held = [Support(0, 1, centre, np.zeros((6, 6))) for centre in centres]
    # motion of slab and printer, per unit of the slab's six and of the printer's against it
    tie = np.block([[to_slab, np.zeros((6, 6))], [to_printer, to_printer]])
    preload = tie.T @ assemble([slab[1], printer[1]], held, list(loads)) @ tie
    lossy = 1.0 + 1j * feet.loss[0, :, None]
    return OnSlab(
        printer=to_printer.T @ mass_matrix(printer[0], printer[2]) @ to_printer,
        slab=to_slab.T @ mass_matrix(slab[0], slab[2]) @ to_slab,
        elastic=support_matrix(centres - com, linear * lossy, angular * lossy),
        preload=preload[6:, 6:],
        across=preload[:6, 6:],
        ratio=float(feet.ratio[0]),
        alpha=float(feet.alpha[0]),
        reference=float(feet.reference[0]),
        spread=spread,
    )
