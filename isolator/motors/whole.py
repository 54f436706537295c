"""What is heard of a printer on its feet once dampers are in: all motors together, on both ways."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from isolator.physics.arrays import Array
from isolator.vibration.band import Band
from isolator.vibration.heard import holds_least, promised_change
from isolator.vibration.over_speed import told_over
from isolator.vibration.results import Evaluation, Heard, Speed
from isolator.vibration.verdict import verdict


class Whole(NamedTuple):
    """How much louder all motors together are with the dampers than without [dB(A)]."""

    speeds: tuple[float, ...]  # [m/s]
    desk: Array  # (n, k) through the feet, in all samples
    frame: tuple[Band, ...]  # through the brackets, at each speed
    over: Array | None = None  # (n, k) through the feet at the evaluation's speeds, once settled


def with_dampers(
    found: Evaluation, whole: Whole | None, ceiling: float, least: float
) -> Evaluation:
    """Return what is told of feet at the speeds asked, the dampers counted in.

    No more than `ceiling` [dB] is promised, `least` [dB(A)] quieter is asked. Left as it is without
    dampers, or where other speeds are asked about than those that dampers were judged at.
    """
    if whole is None or found.changes is None:
        return found
    if tuple(speed.speed for speed in found.speeds) != whole.speeds:
        return found
    levels = (found.changes + whole.desk).T
    speeds = tuple(
        _told(speed, Heard(desk=promised_change(own, ceiling), frame=frame))
        for speed, own, frame in zip(found.speeds, levels, whole.frame, strict=True)
    )
    if whole.over is not None and found.over_speed is not None:
        found = replace(found, **told_over(found.over_speed, ceiling, least, whole.over))
    return replace(found, speeds=speeds, works_from=_works_from(found.works_from, speeds, least))


def spoiled(found: Evaluation, whole: Whole, *, ceiling: float, least: float) -> tuple[float, ...]:
    """Return the speeds [m/s] at which feet are quieter by `least` alone, but not with the dampers.

    Arguments as `with_dampers`.
    """
    both = zip(found.speeds, with_dampers(found, whole, ceiling, least).speeds, strict=True)
    return tuple(
        alone.speed for alone, damped in both if _holds(alone, least) and not _holds(damped, least)
    )


def _holds(speed: Speed, least: float) -> bool:
    return speed.heard is None or bool(holds_least(speed.heard.desk.high, least))


def _told(speed: Speed, heard: Heard) -> Speed:
    return replace(speed, heard=heard, verdict=verdict(heard.desk))


def _works_from(alone: float | None, speeds: tuple[Speed, ...], least: float) -> float | None:
    """Return from where on it works: not below a speed asked about at which it does not."""
    holds = {
        speed.speed: bool(holds_least(speed.heard.desk.high, least))
        for speed in speeds
        if speed.heard is not None
    }
    failed = [speed for speed, held in holds.items() if not held and speed >= (alone or 0.0)]
    if alone is None or not failed:
        return alone
    return min((speed for speed in holds if speed > max(failed)), default=None)
