"""Material cards: what a pad can be made of, every number with its kind and source."""

from __future__ import annotations

from isolator.materials.card import FAMILIES, KINDS, Curve, Family, Figure, Kind, Material
from isolator.materials.library import ideal_rubber, load_card, load_cards, nearest_ids

__all__ = [
    "FAMILIES",
    "KINDS",
    "Curve",
    "Family",
    "Figure",
    "Kind",
    "Material",
    "ideal_rubber",
    "load_card",
    "load_cards",
    "nearest_ids",
]
