"""Which drawings each motor of the report gets."""

from __future__ import annotations

from markupsafe import Markup

from isolator.motors.results import MotorResult
from isolator.report.figures.stack_figure import stack_figure
from isolator.report.figures.stack_pile import Pile, damper_pile, plate_pile
from isolator.report.figures.torque_loss import torque_loss
from isolator.report.findings import Findings


def motor_figures(findings: Findings) -> list[dict[str, Markup]]:
    """Return the drawings of each motor, in their order: "stack" and "lines" where there are any.

    A stack is drawn from the drawing sheet: where a motor has none, nothing is.
    """
    drawn = []
    for rank, motor in enumerate(findings.motors, start=1):
        told: dict[str, Markup] = {}
        pile = _pile(findings, motor)
        if pile is not None:
            told["stack"] = Markup(stack_figure(motor, pile, rank))
        if motor.damper is not None and motor.damper.lines:
            told["lines"] = Markup(
                torque_loss(motor.damper.lines, motor.twist_frequency, findings.ceiling_db, rank)
            )
        drawn.append(told)
    return drawn


def _pile(findings: Findings, motor: MotorResult) -> Pile | None:
    sheet = findings.design
    for damper in findings.dampers if sheet is None else sheet.motor_dampers:
        if damper.name == motor.name and motor.kind == "damper":
            own = 0.0
            if sheet is not None:
                own = sheet.print.for_filament(damper.filament).hole_compensation
            return damper_pile(damper, own)
    if sheet is None:
        return None
    for spacer in sheet.motor_spacers:
        if spacer.name == motor.name and motor.kind == "plate":
            return plate_pile(spacer, sheet.print.for_filament(spacer.filament).hole_compensation)
    return None
