"""Every caution of a report."""

from __future__ import annotations

from isolator.report.findings import Findings

CAUTIONS: tuple[str, ...] = (
    "Before you turn the printer over, pull the mains plug and wait until the supply has "
    "discharged.",
    "Never plug in or pull out a motor while the power is on: it can destroy the driver.",
    "Motors, nozzle and bed burn skin. Let them cool before you touch or unscrew anything.",
    "A motor on rubber or plastic no longer touches the frame electrically. Bond its body to the "
    "frame with a wire. Protective earth must never rely on feet or motor screws. If you are in "
    "doubt, ask an electrician and follow your local codes.",
    "Leave slack in every cable and hose: the printer now travels further than it did.",
    "Keep foam away from heater, bed underside and power supply, leave air intakes open, and "
    "never leave a print running unattended.",
    "A slab of 15 to 30 kg needs two people to lift it and a desk that carries it.",
    "A tall printer on soft feet tips more easily: think of children, pets and earthquakes, and "
    "give it a lip round the feet or a strap.",
    "Afterwards check belt path, homing, level and first layer, and stay with the first print.",
    "Soft feet spoil motion measurements taken on the printer. Tune it again once it stands on "
    "its final feet.",
)


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


def cautions(findings: Findings) -> list[str]:
    """Return every caution of a report once, those of dampers where a motor has one."""
    damped = any(motor.damper is not None for motor in findings.motors)
    every = (*CAUTIONS, *(DAMPER_CAUTIONS if damped else ()), *findings.cautions)
    return list(dict.fromkeys(every))
