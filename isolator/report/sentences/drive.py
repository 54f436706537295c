"""What is told of a motor's drive: steps at risk, or current to spare."""

from __future__ import annotations

import math

from isolator.motors.drive import LEAST_MARGIN, spare_current, worst_row
from isolator.motors.results import DriveEstimates


def drive_words(drive: DriveEstimates, name: str) -> tuple[str, ...]:
    """Return what the estimates say of motor `name`, nothing where nothing need be done."""
    worst = worst_row(drive)
    margin = worst.available / worst.needed
    if margin < LEAST_MARGIN:
        remedy = "Raise its current or lower the acceleration."
        if worst.available < 0.99 * drive.standing:  # else rounding alone would tell
            remedy = (
                "The supply's voltage holds it back, not its current: print slower, or lower the "
                "acceleration."
            )
        least_told = math.floor(10.0 * margin) / 10.0  # 1.49 is not told as 1.5
        return (
            f"An estimate: at {worst.speed * 1e3:.0f} mm/s the torque at hand is {least_told:.1f} "
            "times what the acceleration needs (friction left out), less than "
            f"{LEAST_MARGIN:g}: motor {name} may lose steps. {remedy}",
        )
    spare = spare_current(drive)
    if spare is None:
        return ()
    return (
        f"An estimate: at {100 * spare.share:.0f} % of its current motor {name} still has "
        f"{spare.margin:.0f} times the torque that the acceleration needs (friction left out), its "
        f"electrical tone is {-spare.ripple_db:.0f} dB weaker, its cogging unchanged, and it makes "
        f"{spare.power:.1f} W of heat. Lower it step by step, and watch for lost steps.",
    )
