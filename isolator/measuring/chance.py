"""How far chance reaches: ends between which nine of ten lie."""

from __future__ import annotations

SHARE = 0.95
"""One-sided, so that nine of ten lie within both ends."""
NINE_OF_TEN = 1.645
"""Standard deviations either way between which nine of ten lie, where many numbers tell them."""


def student(freedom: float) -> float:
    """Return how many standard errors lie between a mean and either end, by few numbers.

    >>> round(student(4), 3), round(student(1e6), 3)
    (2.132, 1.645)
    """
    from scipy.stats import t  # slow to load: loaded when first needed

    return float(t.ppf(SHARE, max(freedom, 1.0)))
