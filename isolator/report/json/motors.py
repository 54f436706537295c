"""One motor as JSON: SI floats, names carry units; what a damper alone has is null without."""

from __future__ import annotations

from isolator.motors.results import MotorResult, NoDamper
from isolator.report.json.values import Json, check, plain, record
from isolator.report.sentences.dampers import damper_title, motor_sentences
from isolator.report.sentences.shaft import shaft_words

_SCREWS = "thread length_m head where engagement_m turns beside"
_STACK = (
    "pulley_beyond_shaft_end_m=shaft_end shaft_beyond_set_screw_m=set_screw_left "
    "belt_error_m tolerance_m tallest_m reach_m belt_height_m"
)
_DAMPER = (
    "axial_stiffness_n_per_m=axial shear_stiffness_n_per_m=shear "
    "tilt_stiffness_nm_per_rad=tilt twist_stiffness_nm_per_rad=twist "
    "modes heard lines shift_m wedge_angle_rad wedge_step_m tilt_left_rad helps_from_m_per_s"
)
_DRIVE = (
    "speeds=rows currents microstep_m=step microstep_rad=step_angle "
    "microstep_torque_nm=step_torque accuracy_m reference_voltage_v"
)


def motor_json(motor: MotorResult) -> Json:
    """Return everything that was found of a motor."""
    damper = motor.damper
    heights = "stack_height_m pulley_spacer_height_m shaft_left_m"
    return {
        "name": motor.name,
        "kind": motor.kind,
        "words": list(motor_sentences(motor)),
        **record(motor, f"{heights} tilt_rad pulley_shift_m twist_frequency_hz"),
        "screws": [
            {"count": int(screws.count), **record(screws, _SCREWS)} for screws in motor.screws
        ],
        "checks": [check(each) for each in motor.checks],
        "damper": None
        if damper is None
        else {
            "title": damper_title(damper.rubber),
            "bought": damper.rubber.bought,
            **record(damper, _DAMPER),
        },
        "without": None if motor.without is None else _without(motor.without),
        "belt": plain(motor.belt),
        "stack": {**record(motor.stack, _STACK), "words": list(shaft_words(motor))},
        "heat": plain(motor.heat),
        "drive": {"estimated": True, **record(motor.drive, _DRIVE)},
    }


def _without(why: NoDamper) -> Json:
    """Return why a motor has no damper, and what one would gain and cost."""
    offer = why.offer
    told: Json = {"cause": why.cause, "offer": None}
    if offer is not None:
        title = damper_title(offer.rubber)
        told["offer"] = {
            "title": title,
            **record(offer, "heard helps_from_m_per_s stack_height_m belt heat"),
        }
    return told
