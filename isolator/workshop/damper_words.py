"""Sentences that the steps of more than one kind of damper have."""

from __future__ import annotations

DRILL = (
    "Where a bracket lacks holes, clamp the drill template to it and drill them 3 mm through it "
    "first, then open them to the screws' size without it."
)
DRILL_FOUR = f"{DRILL} All four are needed: two for screws, two for the key."
