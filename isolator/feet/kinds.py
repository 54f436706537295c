"""Kinds of feet that a person tells apart."""

from __future__ import annotations

from isolator.brief.stock import BOUGHT, HALF_BALL, KEEP, KINDS, SLAB
from isolator.design import OUTLINES
from isolator.feet.candidates import CandidateBatch

__all__ = ["KEEP", "KINDS", "SLAB", "kind_of"]


def kind_of(batch: CandidateBatch) -> str:
    """Return the kind of a batch's feet, of `KINDS`: half-balls, ready-made mounts, or their
    material's family."""
    if OUTLINES[batch.shape].ready:
        return BOUGHT
    return HALF_BALL if OUTLINES[batch.shape].halved else batch.material.family
