"""One motor as JSON: SI floats, names carry units; what rubber alone would have is null."""

from __future__ import annotations

from isolator.motors.results import (
    Belt,
    CurrentRow,
    DamperLine,
    DamperState,
    DriveEstimates,
    DriveRow,
    Heat,
    MotorResult,
    Screws,
)
from isolator.report.json.values import Json, band, check, number, numbers
from isolator.report.sentences.dampers import damper_title, motor_sentences
from isolator.report.sentences.shaft import shaft_words


def motor_json(motor: MotorResult) -> Json:
    """Return everything that was found of a motor."""
    twist = motor.twist_frequency
    return {
        "name": motor.name,
        "kind": motor.kind,
        "words": list(motor_sentences(motor)),
        "stack_height_m": number(motor.stack_height),
        "pulley_spacer_height_m": number(motor.pulley_spacer_height),
        "shaft_left_m": number(motor.shaft_left),
        "tilt_rad": number(motor.tilt),
        "pulley_shift_m": number(motor.pulley_shift),
        "twist_frequency_hz": None if twist is None else band(twist),
        "screws": [_screws(screws) for screws in motor.screws],
        "checks": [check(each) for each in motor.checks],
        "damper": None if motor.damper is None else _damper(motor.damper),
        "belt": _belt(motor.belt),
        "stack": _stack(motor),
        "heat": _heat(motor.heat),
        "drive": _drive(motor.drive),
    }


def _screws(screws: Screws) -> Json:
    return {
        "count": int(screws.count),
        "thread": screws.thread,
        "length_m": number(screws.length),
        "head": screws.head,
        "where": screws.where,
        "engagement_m": number(screws.engagement),
        "turns": number(screws.turns),
        "beside": screws.beside,
    }


def _damper(damper: DamperState) -> Json:
    return {
        "title": damper_title(damper.rubber),
        "axial_stiffness_n_per_m": number(damper.axial),
        "shear_stiffness_n_per_m": numbers(damper.shear),
        "tilt_stiffness_nm_per_rad": numbers(damper.tilt),
        "twist_stiffness_nm_per_rad": number(damper.twist),
        "modes": [
            {"name": mode.name, "frequency_hz": band(mode.frequency)} for mode in damper.modes
        ],
        "lines": [_line(line) for line in damper.lines],
        "shift_m": number(damper.shift),
        "wedge_angle_rad": number(damper.wedge_angle),
        "wedge_step_m": number(damper.wedge_step),
        "tilt_left_rad": number(damper.tilt_left),
        "helps_from_m_per_s": number(damper.helps_from),
    }


def _line(line: DamperLine) -> Json:
    return {
        "source": line.source,
        "speed_m_per_s": number(line.speed),
        "direction_deg": number(line.direction_deg),
        "frequency_hz": number(line.frequency),
        "torque_loss_db": band(line.torque),
        "damper_loss_db": band(line.damper),
        "feet_loss_db": band(line.feet),
        "both_loss_db": band(line.both),
    }


def _belt(belt: Belt) -> Json:
    return {
        "tension_n": number(belt.tension),
        "pull_n": number(belt.pull),
        "arm_m": number(belt.arm),
        "arm_before_m": number(belt.arm_before),
        "resonance_before_hz": number(belt.resonance_before),
        "resonance_after_hz": number(belt.resonance_after),
    }


def _stack(motor: MotorResult) -> Json:
    stack = motor.stack
    return {
        "pulley_beyond_shaft_end_m": number(stack.shaft_end),
        "shaft_beyond_set_screw_m": number(stack.set_screw_left),
        "belt_error_m": number(stack.belt_error),
        "tolerance_m": number(stack.tolerance),
        "tallest_m": number(stack.tallest),
        "belt_height_m": number(stack.belt_height),
        "words": list(shaft_words(motor)),
    }


def _heat(heat: Heat) -> Json:
    return {
        "power_w": number(heat.power),
        "case_before_deg_c": number(heat.case_before),
        "case_after_deg_c": number(heat.case_after),
        "plate_deg_c": number(heat.plate),
        "softening_deg_c": number(heat.softening),
        "limit_deg_c": number(heat.limit),
    }


def _drive(drive: DriveEstimates) -> Json:
    return {
        "estimated": True,
        "speeds": [_drive_row(row) for row in drive.rows],
        "currents": [_current_row(row) for row in drive.currents],
        "microstep_m": number(drive.step),
        "microstep_rad": number(drive.step_angle),
        "microstep_torque_nm": number(drive.step_torque),
        "accuracy_m": number(drive.accuracy),
        "reference_voltage_v": number(drive.reference_voltage),
    }


def _drive_row(row: DriveRow) -> Json:
    return {
        "speed_m_per_s": number(row.speed),
        "turns_per_s": number(row.turns),
        "electrical_hz": number(row.electrical),
        "torque_needed_nm": number(row.needed),
        "torque_available_nm": number(row.available),
    }


def _current_row(row: CurrentRow) -> Json:
    return {
        "share_of_current": number(row.share),
        "torque_margin": number(row.margin),
        "ripple_db": number(row.ripple_db),
        "detent_db": number(row.detent_db),
        "power_w": number(row.power),
    }
