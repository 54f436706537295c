"""What was chosen becomes the drawing sheet."""

from __future__ import annotations

from isolator.brief import Brief
from isolator.design import Design, Foot, Slab
from isolator.design.damper import MotorDamper
from isolator.design.version import version
from isolator.motors.to_design import spacer_of


def to_design(
    brief: Brief, feet: tuple[Foot, ...], dampers: tuple[MotorDamper, ...] = ()
) -> Design:
    """Return the whole drawing sheet: feet, dampers and the brief's plain plates under motors."""
    slab = brief.slab
    return Design(
        name=brief.name,
        slug=brief.slug,
        version=version(),
        print=brief.print.settings,
        feet=feet,
        motor_spacers=tuple(
            spacer_of(motor, brief.print) for motor in brief.motors if motor.spacer_plate > 0
        ),
        motor_dampers=dampers,
        frame_size=brief.printer.size,
        slab=None
        if slab is None
        else Slab(size=slab.size, position=slab.position, gap=slab.gap, lip=slab.lip),
    )
