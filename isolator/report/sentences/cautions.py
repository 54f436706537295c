"""Every caution that is told, in one list: which ones a report needs is decided here too."""

from __future__ import annotations

from collections.abc import Mapping

from isolator.cards import Material
from isolator.design.plate_kinds import PRINTED
from isolator.motors.results import MotorResult
from isolator.report.findings import Findings
from isolator.workshop.step import Care, Step

ALWAYS: Mapping[str, str] = {
    "mains": (
        "Before you turn the printer over, pull the mains plug and wait until the supply has "
        "discharged."
    ),
    "driver": (
        "Never plug in or pull out a motor while the power is on: it can destroy the driver."
    ),
    "burns": (
        "Motors, nozzle and bed burn skin. Let them cool before you touch or unscrew anything."
    ),
    "earth": (
        "A motor on rubber or plastic no longer touches the frame electrically. Bond its body to "
        "the frame with a wire. It leads charge away; it is no protective earth, which must never "
        "rely on feet or motor screws. If you are in doubt, ask an electrician and follow your "
        "local codes."
    ),
    "slack": "Leave slack in every cable and hose: the printer now travels further than it did.",
    "foam fire": (
        "Keep foam away from heater, bed underside and power supply, leave air intakes open, and "
        "never leave a print running unattended."
    ),
    "slab weight": "A slab of 15 to 30 kg needs two people to lift it and a desk that carries it.",
    "tipping": (
        "A tall printer on soft feet tips more easily: think of children, pets and earthquakes, "
        "and give it a lip round the feet or a strap."
    ),
    "try": (
        "Afterwards check belt path, homing, level and first layer, and stay with the first print."
    ),
    "tune": (
        "Soft feet spoil motion measurements taken on the printer. Tune it again once it stands on "
        "its final feet."
    ),
}
"""In every report."""
DAMPER: Mapping[str, str] = {
    "cool motors": (
        "Unplug the printer from the mains and let its motors cool before you loosen a motor screw."
    ),
    "bond": (
        "The bonding wire's lug lies metal on metal under a screw of its own, in a motor hole that "
        "a printed plate leaves free or on a metal plate's ear; its other end lies on bare "
        "metal of the frame, under a screw. Measure it with an ohmmeter from the motor's case."
    ),
    "filament": (
        "Never print the plates or the wedge in PLA: a warm motor makes it creep. Take the "
        "filament that the parts list names: temperatures were worked out for it."
    ),
    "bridge": (
        "No screw may go through the rubber from plate to plate: one that does bridges it, and the "
        "damper does nothing."
    ),
    "refit": (
        "After refitting set the belts' tension and the pulley's plane again, and check homing and "
        "the first layer before you print. Look at the glued joints again after the first week."
    ),
}
"""Where a motor gets a damper."""
OWN: Mapping[str, str] = {
    "foam": "The pads are foam: they burn. Keep them away from heater, bed underside and supply.",
    "sheet metal": (
        "The dampers' plates are sheet metal: have them cut by a shop from their DXF files. Its "
        "edges and burrs cut skin, rubber and cables: deburr every edge and hole before you glue, "
        "and keep cables off them."
    ),
    "stacked motor": (
        "The wire from a motor on a plate to the frame lies under a screw at both ends. Print its "
        "plate in a filament that stands the motor's heat, never in PLA."
    ),
}
"""For what a design is made of."""
STEPS: Mapping[Care, str] = {
    "knives": "Knives slip: cut away from you on a board, in several light strokes.",
    "unplug": (
        "Pull the mains plug and wait until the supply has discharged; let motors, nozzle and bed "
        "cool."
    ),
    "heavy": "Two people turn and lift it, by its frame.",
    "slab": "A slab takes two people and a desk that bears it; wear firm shoes.",
    "sways": "It now sways and tips more easily: keep children and pets from it.",
    "glue": "Air the room, wear gloves, and keep to what the glue's maker says.",
    "hot insert": "Iron and insert burn: let the part cool before you touch it.",
    "motors off": (
        "Pull the mains plug and let the motors cool. Never plug a motor in or out with power on: "
        "it kills the driver."
    ),
    "bonding wire": (
        "The wire leads charge away; it is no protective earth. If in doubt ask an electrician, "
        "and follow local codes."
    ),
    "sheet edges": (
        "Sheet metal's edges cut: wear gloves until every edge and hole is deburred. Do not cut "
        "it yourself with a saw or snips near your fingers; have it cut by a shop."
    ),
    "drill": "Wear glasses when you drill, and keep chips out of the electronics.",
    "pour": (
        "Uncured rubber: wear gloves and glasses, air the room, and keep to its maker's sheet."
    ),
    "press the rim": "Do not press on a pad or a sole: press on the rim, square to the frame.",
}
"""Beside a step of assembly, by the key that the step carries."""


def of_step(step: Step) -> list[str]:
    """Return the cautions of a step of assembly."""
    return [STEPS[key] for key in step.cautions]


def of_design(motors: tuple[MotorResult, ...], material: Material | None) -> tuple[str, ...]:
    """Return cautions that this very design calls for, besides those every report prints."""
    needed = {
        "foam": material is not None and material.family == "foam",
        "sheet metal": any(
            motor.damper is not None
            and motor.damper.plates[0] != PRINTED
            and not motor.damper.rubber.bought
            for motor in motors
        ),
        "stacked motor": any(motor.kind == "plate" for motor in motors),
    }
    return tuple(OWN[key] for key, calls in needed.items() if calls)


def before_start(findings: Findings) -> list[str]:
    """Return the cautions of every report and of this design."""
    return list(dict.fromkeys((*ALWAYS.values(), *findings.cautions)))


def cautions(findings: Findings) -> list[str]:
    """Return every caution of a report once, those of dampers where a motor has one."""
    damped = any(motor.damper is not None for motor in findings.motors)
    every = (*ALWAYS.values(), *(DAMPER.values() if damped else ()), *findings.cautions)
    return list(dict.fromkeys(every))
