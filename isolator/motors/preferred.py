"""Which of several dampers is taken first, by what is heard of their motors on both ways out."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from isolator.feet.ranking import EQUAL_DB, score
from isolator.motors.mount import WORTH, Damper
from isolator.physics.arrays import Array
from isolator.vibration.heard import holds_least
from isolator.vibration.verdict import heard_louder


class Gains(NamedTuple):
    """Gains (n, k) of n dampers at k speeds, the lowest of motors [dB(A)]."""

    bracket: Array  # at the low end
    feet: Array
    nominal: Array  # through the feet

    def order(self, ease: Array) -> NDArray[np.intp]:
        """Return places (n,), the best first; `ease` (n, e).

        First those that are worth it and that nobody hears louder at any speed, then those that are
        called louder at none. A speed that may be louder costs extra.
        """
        points = (score(self.bracket, 0.0) + score(self.feet, -EQUAL_DB)) / 2.0
        fit = self.fits(self.bracket)
        called = heard_louder(-self.nominal, -self.feet).any(axis=1)
        step = np.where((self.feet >= -EQUAL_DB).all(axis=1), 0, np.where(called, 2, 1))
        return in_order(points, ease, np.where(fit, step, 2))

    @staticmethod
    def fits(bracket: Array) -> NDArray[np.bool_]:
        """Return which gains (n, k) through the bracket are losses at no speed, and worth it."""
        quieter = holds_least(-bracket, 0.0).all(axis=1)
        return np.asarray(quieter & (bracket.mean(axis=1) >= WORTH))

    def keenest(self, benefit: Array, ease: Array) -> NDArray[np.intp]:
        """Return the same by the `benefit` (n,) through the bracket, slow speeds that are louder
        left out."""
        points = (benefit + score(self.feet, -EQUAL_DB)) / 2.0
        return in_order(points, ease, np.zeros(len(points), dtype=int))


def points_of(one: Damper) -> float:
    """Return the points [dB(A)] of a damper under one motor, as `Gains.order` counts them."""
    bracket, feet = (np.array([[-each.high for each in way]]) for way in (one.changes, one.feet))
    return float((score(bracket, 0.0) + score(feet, -EQUAL_DB))[0] / 2.0)


def benefit(bracket: Array) -> Array:
    """Return the mean (n,) of gains (n, k) [dB(A)] where they are gains."""
    return np.asarray(np.maximum(bracket, 0.0).mean(axis=1))


def in_order(points: Array, ease: Array, step: NDArray[np.int_]) -> NDArray[np.intp]:
    """Return places (n,) by `step` (n,); of one step those within `EQUAL_DB` of the most `points`
    (n,) first, easiest first, then the others by points. `ease` (n, e), the least first.
    """
    most = np.full(step.max() + 1, -np.inf)
    np.maximum.at(most, step, points)
    alike = points >= most[step] - EQUAL_DB
    easiest = [np.where(alike, column, 0.0) for column in ease.T[::-1]]
    return np.lexsort([*easiest, np.where(alike, 0.0, -points), ~alike, step])
