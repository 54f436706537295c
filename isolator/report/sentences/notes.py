"""Fixed sentences: what figures mean, what they do not promise, what a command warns of."""

from __future__ import annotations

from pathlib import Path

DECIBEL = (
    "Decibels (dB) here say how much less vibration reaches the desk: 6 dB less is half the "
    "vibration, and a tone that falls by 10 dB sounds about half as loud. A minus means more, "
    "not less."
)
NO_PROMISE = (
    "These are figures for the feet, not a promise of a room's dB. At home, 5 to 10 dB is the "
    "most one can believe on a desk that acts as a sounding board, 0 to 2 dB on a stone floor "
    "(common practice, no source). Fans, rattles and the noise that motors send straight into "
    "the air do not pass through the feet and stay as they are."
)
DESK = "A desk whose size is not given is taken as an endless plate."
RIPPLE = (
    "Which line is loudest on your motors is an estimate; how well the feet isolate each line "
    "does not depend on it."
)
BAND = (
    "A band runs over the scatter of the material, the mass range and the temperature: the value "
    "in the middle is the material card's own."
)
SOURCES: dict[str, str] = {
    "turn": "once a pulley turn, from run-out",
    "belt tooth": "each tooth that meets the pulley",
    "electrical": "each electrical cycle of the motor, from coil offset",
    "twice electrical": "twice a cycle, from unequal coils",
    "full step": "each full step, from the motor's detent",
    "microstep": "each microstep",
}
TORQUE = (
    "Torque is what the motor passes into the frame about its shaft, with the damper against "
    "bolted to the frame. The other columns are the force of all feet on a rigid floor, against "
    "rigid feet and bolted motors: with the damper alone, with the feet alone, with both. All in "
    "dB, nominal and (low to high); a minus is a tone made worse."
)
ESTIMATES = (
    "Estimates, from the figures of the brief and usual ones where it gives none: an aid to "
    "setting the drive, not a proof that no step is lost."
)
DRAWN = (
    "Cut along the shaft, to scale, with the belts pulling; the bracket stays where it is and so "
    "does the belt. How wide pulley and bracket are is not known here."
)
MOVED = "they stand at other places than the brief says: design again"


def beyond(ceiling: float) -> str:
    """Return the loss [dB] from which on nothing is promised."""
    return f"Beyond {ceiling:.0f} dB the report promises nothing."


def above_100_hz(ceiling: float) -> str:
    """Return what the model leaves out above 100 Hz, and the loss [dB] up to which it promises."""
    return (
        "Above about 100 Hz frames and desks bend and pads carry waves, so real feet do worse than "
        f"the curve. {beyond(ceiling)}"
    )


def checked(file: Path | None) -> str:
    """Return whose feet are checked: those of a design `file`, else the brief's last design."""
    return f"checked are the feet of {file or 'the last design of this brief'}"


def cannot_draw(error: Exception) -> str:
    """Return that the nearest feet are such as cannot be drawn."""
    return f"the nearest feet cannot be drawn: {error}"
