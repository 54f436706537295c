"""Motors in one breath: what goes under them, or why nothing does."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from isolator.design.phrases import millimetres
from isolator.motors.results import MotorResult
from isolator.report.sentences.heard_words import range_words
from isolator.report.sentences.listed import listed
from isolator.report.sentences.numbers import number

_WHY: Mapping[str, str] = {
    "no belt": "drives no belt",
    "not wanted": "no damper, as the brief says",
    "no stock": "no damper: the stock offers no rubber for one",
    "none holds": "leave as it is (no damper holds it against its belt)",
    "fails": "leave as it is (the best damper fails a check)",
    "floor": "leave as it is (a damper would be louder through the feet)",
    "spoils": "leave as it is (with a damper a speed would be louder than before)",
    "louder": "leave as it is (every damper would be louder at some speed)",
    "little": "leave as it is (a damper would gain too little)",
}
"""What is said of a motor without a damper, by the cause."""


def motor_items(motors: Sequence[MotorResult]) -> tuple[str, ...]:
    """Return what to do about the motors: what is made first, those told alike together."""
    groups: dict[str, list[str]] = {}
    for motor in sorted(motors, key=lambda each: each.damper is None and each.kind != "plate"):
        groups.setdefault(_told(motor), []).append(motor.name)
    return tuple(
        f"{listed(names)}: {told.replace('leave as it is', 'leave as they are')}"
        if len(names) > 1
        else f"{names[0]}: {told}"
        for told, names in groups.items()
    )


def ring_words(motors: Sequence[MotorResult]) -> str:
    """Return at what the belts of motors on dampers ring with them, and without."""
    both = [(each.belt.resonance_after, each.belt.resonance_before) for each in motors]
    after, before = (_span(each) for each in zip(*both, strict=True))
    belts = "belts ring" if len(motors) > 1 else "belt rings"
    return f"{belts} at {after}, not {before}"


def _span(frequencies: Sequence[float]) -> str:
    """Return frequencies [Hz] from the least to the greatest, one where they are told alike."""
    least, most = (number(end(frequencies), 2) for end in (min, max))
    return f"{most} Hz" if least == most else f"{least} to {most} Hz"


def _told(motor: MotorResult) -> str:
    if motor.damper is not None:
        gain = range_words([each.heard.frame for each in motor.damper.heard])
        rubber = motor.damper.rubber
        what = f"bought damper {rubber.material}" if rubber.bought else "rubber damper"
        return f"{what}, {gain} through the bracket; price: {ring_words([motor])}"
    if motor.kind == "plate":
        return f"a plain plate of {millimetres(motor.stack_height, 1)}, as the brief says"
    if motor.without is None:
        return "leave as it is"
    return _WHY.get(motor.without.cause, "leave as it is")
