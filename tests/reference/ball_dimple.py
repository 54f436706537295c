"""Whether the flattened top of a thin half-ball stays turned inwards once it has been pushed there.

A pressure on the middle of the patch lifts it off the desk in viscous steps; then it is let go, in
viscous steps again. It slides: stuck, the patch is held flat longer.
"""

from __future__ import annotations

import numpy as np
from ball_elements import HalfBall


class Dimpled(HalfBall):
    """A half-ball whose outside is pushed and dragged."""

    push = 0.0  # pressure on the middle, upwards
    reach = 0.0  # radius of the middle
    drag = 0.0  # traction over displacement since the last step
    before: np.ndarray | None = None

    def _contact(self, desk: float) -> tuple[np.ndarray, np.ndarray]:
        traction, hold = super()._contact(desk)
        traction[2] += self.push * (self.ring < self.reach)
        if self.before is not None:
            u, _, _ = self._at_points()
            moves = np.array([1.0, 0.0, 1.0])[:, None, None] * self.drag
            traction, hold = traction - moves * (u - self.before), hold + moves
        return traction, hold

    def step(self, sag: float) -> bool:
        """Take one viscous step."""
        self.before = self._at_points()[0]
        done = self.press(sag)
        self.before = None
        return done

    def gap(self, sag: float) -> float:
        """Return how far the middle stands off the desk."""
        _, _, z = self._at_points()
        return float(z.ravel()[np.argmin(self.ring)] - (sag - 1.0))

    def load(self, sag: float) -> float:
        """Return the desk's force."""
        traction, _ = self._contact(sag - 1.0)
        return 2.0 * np.pi * float((traction[2] * self.patch).sum())


def let_go(wall: float, sag: float, *, fineness: float = 1.0) -> tuple[float, float, float]:
    """Return the force of the flat patch, and force and gap after a dimple was let go."""
    ball, at = Dimpled(wall, fineness=fineness, sticks=False), 0.0
    while at < sag - 1e-9:
        at = min(sag, at + min(0.015, 0.3 * at + 1e-3))
        if not ball.press(at):
            raise ArithmeticError(f"not pressed to {at}")
    flat = ball.load(sag)
    ball.reach, ball.push, ball.drag = 0.3 * np.sqrt(sag), 0.02 * wall**2, 20.0 * wall**2
    for turn in range(150):
        if ball.gap(sag) > 0.5 * sag or not ball.step(sag):
            break
        ball.push *= 1.3 if turn % 10 == 9 else 1.0
    ball.push = 0.0
    for _ in range(250):
        was = ball.gap(sag)
        ball.drag *= 0.97 if ball.step(sag) else 2.0
        now = ball.gap(sag)
        if now < 1e-5 or abs(now - was) < 1e-6 * now:
            break
    ball.press(sag)
    return flat, ball.load(sag), ball.gap(sag)
