"""What a printer stands on, in words."""

from __future__ import annotations

from isolator.design.phrases import millimetres
from isolator.vibration.desk import STAND_IN

DESKS = {"mdf": "MDF", "solid-wood": "solid wood", "hollow-board": "hollow"}
"""Table tops as they stand before "desk", where their name in the brief does not."""


def desk_words(material: str) -> str:
    """Return the desk that figures are told for; without a material it is the soft stand-in."""
    if material:
        return f"your {DESKS.get(material, material)} desk"
    return f"a soft desk ({millimetres(STAND_IN, 0)} fibreboard)"
