"""What a foot stands on the desk with, and how that grips there."""

from __future__ import annotations

from isolator.design.foot_kinds import FootKind

PAD = "pad"  # of rubber or foam, or of flexible filament
TREAD = "tread"
BARE = "bare sole"  # of hard plastic

FRICTION = {PAD: 0.5, TREAD: 0.4, BARE: 0.25}
"""Static friction on a dry, clean table top, on the careful side; estimated. General tables of
pairings give 0.2 to 0.45 for hard plastic on a smooth hard face and 0.7 to 1.0 for rubber on
concrete, no source for printed soles."""
USUAL_TREAD = 1.2e-3
"""Thickness of a tread where one is needed and none was asked for [m]; convention, no source."""


def stands_with(build: FootKind, tread: float, sole: float | None = None) -> str:
    """Return what a foot of a kind stands on the desk with, under a tread so thick [m].

    `sole` [m] is its own, where its kind does not tell: a mount may have one or stand by itself.
    """
    if (build.sole if sole is None else sole) <= 0 or build.soft_body:
        return PAD
    return TREAD if tread > 0 else BARE
