"""The report's fixed sentences about motors, and what it picks out of their numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from isolator.design.phrases import speed_text as speed_text
from isolator.motors.results import DamperLine, MotorResult, Screws, Stack
from isolator.report.findings import Findings
from isolator.report.sentences.words import CAUTIONS, readable
from isolator.vibration.band import Check

DAMPER_CAUTIONS: tuple[str, ...] = (
    "Unplug the printer from the mains and let its motors cool before you loosen a motor screw.",
    "Rubber cuts the motor's body off from the frame. Run a bonding wire from the body to bare "
    "metal of the frame: its lug lies metal on metal under a screw of its own, in a motor hole "
    "that the plate leaves free, and its other end under a screw of the frame. Measure it with an "
    "ohmmeter. It leads charge away; it is no protective earth. If in doubt ask an electrician, "
    "and follow local codes.",
    "Never print the plates or the wedge in PLA: a warm motor makes it creep. The file names the "
    "filament that the temperatures were worked out for.",
    "No screw may go through the rubber from plate to plate: one that does bridges it, and the "
    "damper is none.",
    "After refitting set the belts' tension and the pulley's plane again, and check homing and "
    "the first layer before you print. Look at the glued joints again after the first week.",
)

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """Heights over the motor's face that the report's drawing and table need [m]."""

    shaft: float  # length of the shaft
    pulley: float  # length of the pulley
    standoff_before: float  # motor's face to pulley, as built now
    belt_offset: float  # pulley's end at the motor to the belt's middle


def heights(motor: MotorResult) -> Heights:
    """Return what follows from a result.

    The spacer is the old stand-off and the stack, off by the belt's error; shaft left is shaft
    less spacer, and the pulley is as long as what is left of the shaft and what looks out beyond.
    """
    stack = motor.stack
    standoff = motor.pulley_spacer_height - motor.stack_height - stack.belt_error
    return Heights(
        shaft=motor.shaft_left + motor.pulley_spacer_height,
        pulley=motor.shaft_left + stack.shaft_end,
        standoff_before=standoff,
        belt_offset=stack.belt_height - standoff,
    )


def cautions(findings: Findings) -> list[str]:
    """Return every caution of a report once, those of dampers where a motor has one."""
    damped = any(motor.damper is not None for motor in findings.motors)
    every = (*CAUTIONS, *(DAMPER_CAUTIONS if damped else ()), *findings.cautions)
    return list(dict.fromkeys(every))


def other_checks(findings: Findings) -> list[Check]:
    """Return the checks that are not told with a motor that shows them."""
    told = {each for motor in findings.motors for each in motor.checks}
    return [check for check in findings.checks if check not in told]


def worst_by_tone(lines: Sequence[DamperLine]) -> list[DamperLine]:
    """Return each tone of each speed once, in the direction in which the damper does worst.

    By what it takes of the torque or of the force on the floor, whichever is less. In order of
    speed, then as the tones come.
    """
    worst: dict[tuple[float, str], DamperLine] = {}
    for line in lines:
        key = (line.speed, line.source)
        if key not in worst or least_gain(line) < least_gain(worst[key]):
            worst[key] = line
    return sorted(worst.values(), key=lambda line: line.speed)


def floor_gain(line: DamperLine) -> float:
    """Return what the damper takes of the force on the floor beyond the feet [dB], nominal."""
    return line.both.nominal - line.feet.nominal


def least_gain(line: DamperLine) -> float:
    """Return what the damper takes of torque or of floor force, whichever is less [dB]."""
    return min(line.torque.nominal, floor_gain(line))


def screw_words(screws: Screws) -> str:
    """Return what to buy: "2 × M3 × 8 mm, button head, ISO 7380-1"."""
    return f"{screws.count} × {screws.thread} × {readable(screws.length, 'm')}, {screws.head}"


def hold_words(screws: Screws) -> str:
    """Return what a screw holds by: "holds by 3.5 mm, 7 turns"."""
    return f"holds by {readable(screws.engagement, 'm', 2)}, {readable(screws.turns, '1', 2)} turns"


def end_words(stack: Stack) -> str:
    """Return where the pulley's end lies against the shaft's."""
    if abs(stack.shaft_end) < 5e-5:
        return "flush with the shaft's end"
    beyond = readable(abs(stack.shaft_end), "m", 2)
    return (
        f"{beyond} beyond the shaft's end"
        if stack.shaft_end > 0
        else (f"{beyond} short of the shaft's end")
    )


def change(before: float, after: float, unit: str) -> str:
    """Return a value as built now and with the stack.

    >>> change(62.0, 55.4, "Hz")
    '62 Hz now, 55.4 Hz then'
    """
    return f"{readable(before, unit)} now, {readable(after, unit)} then"
