"""Material cards: what is known of a material, every number with its kind and source, and the pad
laws that follow from a card. Candidates and printers do not belong here.
"""

from __future__ import annotations

from isolator.cards.card import FAMILIES, KINDS, Family, Figure, Kind, Material, StressCurve
from isolator.cards.library import ideal_rubber, load_card, load_cards, nearest_ids
from isolator.cards.supply import Supply

__all__ = [
    "FAMILIES",
    "KINDS",
    "Family",
    "Figure",
    "Kind",
    "Material",
    "StressCurve",
    "Supply",
    "ideal_rubber",
    "load_card",
    "load_cards",
    "nearest_ids",
]
