"""Findings as JSON: SI floats, names carry units, bands as low, nominal, high."""

from __future__ import annotations

import math
from collections.abc import Iterable

from isolator.figures import Band, Check
from isolator.motor_result import MotorResult
from isolator.report.words import CAUTIONS, means
from isolator.result import Evaluation, Findings, Line, Load, LoadPoint, Speed, Tally

Json = dict[str, object]


def to_json(findings: Findings) -> Json:
    """Return everything a run found as plain dicts, lists, strings, booleans, ints and floats.

    A number that is not finite becomes None, so that the text is JSON in the strict sense.
    Candidates are all zero where nothing was searched.
    """
    chosen = findings.chosen
    told: Json = {
        "name": findings.name,
        "version": findings.version,
        "passed": findings.passed,
        "answer": list(findings.answer),
        "make": list(findings.make),
        **_evaluation(chosen),
        "motors": [_motor(motor) for motor in findings.motors],
        "checks": [_check(check) for check in findings.checks],
        "candidates": _candidates(findings.tally),
        "assumed": [{"key": a.key, "value": a.value, "why": a.why} for a in findings.assumed],
        "sources": list(findings.sources),
        "warnings": list(findings.warnings),
        "cautions": list(dict.fromkeys((*CAUTIONS, *findings.cautions))),
    }
    if findings.now is not None:
        told["now"] = _evaluation(findings.now)
    return told


def _number(value: float | None) -> float | None:
    return float(value) if value is not None and math.isfinite(value) else None


def _numbers(values: Iterable[float]) -> list[float | None]:
    return [_number(value) for value in values]


def _band(band: Band) -> Json:
    return {
        "low": _number(band.low),
        "nominal": _number(band.nominal),
        "high": _number(band.high),
    }


def _evaluation(found: Evaluation) -> Json:
    sway, stability = found.sway, found.stability
    return {
        "modes": [
            {
                "name": mode.name,
                "frequency_hz": _band(mode.frequency),
                "damping_ratio": _number(mode.damping_ratio),
            }
            for mode in sorted(found.modes, key=lambda mode: mode.frequency.nominal)
        ],
        "feet": [
            {
                "position_m": _numbers(foot.position),
                "load_n": _band(foot.load),
                "strain": _number(foot.strain),
                "sag_m": _number(foot.sag),
                "stiffness_n_per_m": _numbers(foot.stiffness),
            }
            for foot in found.feet
        ],
        "speeds": [_speed(speed) for speed in found.speeds],
        "loads": [_load(load) for load in found.loads],
        "sway": {
            "worst_m": _number(sway.worst),
            "at_feet_m": _number(sway.at_feet),
            "step_m": _number(sway.step),
            "axis": sway.axis,
            "stroke_m": _number(sway.stroke),
            "speed_m_per_s": _number(sway.speed),
            "limit_m": _number(sway.limit),
        },
        "stability": {
            "tip_margin": _number(stability.tip_margin),
            "slip_margin": _number(stability.slip_margin),
            "gravity_factor": _number(stability.gravity_factor),
            "force_factor": _number(stability.force_factor),
        },
        **_beyond(found),
    }


def _beyond(found: Evaluation) -> Json:
    return {
        "avoid": [
            {
                "low_m_per_s": _number(one.low),
                "high_m_per_s": _number(one.high),
                "source": one.source,
                "mode": one.mode,
            }
            for one in found.avoid
        ],
        "isolates_from_m_per_s": _number(found.isolates_from),
        "creep": [
            {
                "after": row.label,
                "time_s": _number(row.seconds),
                "sag_m": _number(row.sag),
                "tilt_rad": _number(row.tilt),
            }
            for row in found.creep
        ],
        "tilt_rad": _numbers(found.tilt),
        "share_on_target": _number(found.share),
        "desk": found.desk,
    }


def _speed(speed: Speed) -> Json:
    return {
        "speed_m_per_s": _number(speed.speed),
        "verdict": speed.verdict,
        "reason": speed.reason,
        "lines": [_line(line) for line in speed.lines],
        "means_over_directions": [
            {
                "source": mean.source,
                "insertion_loss_db": _number(mean.insertion_loss),
                "on_desk_db": _number(mean.on_desk),
            }
            for mean in means(speed)
        ],
    }


def _line(line: Line) -> Json:
    told: Json = {
        "source": line.source,
        "frequency_hz": _number(line.frequency),
        "direction_deg": _number(line.direction_deg),
        "transmissibility": _number(line.transmissibility),
        "insertion_loss_db": _band(line.insertion_loss),
        "on_desk_db": _band(line.on_desk),
    }
    if line.against_now is not None:
        told["against_now_db"] = _band(line.against_now)
    return told


def _load(load: Load) -> Json:
    return {"name": load.name, "frequencies": [_load_point(point) for point in load.points]}


def _load_point(point: LoadPoint) -> Json:
    return {
        "frequency_hz": _number(point.frequency),
        "transmitted_n": _numbers(point.transmitted),
        "transmissibility": _number(point.transmissibility),
        "insertion_loss_db": _band(point.insertion_loss),
    }


def _motor(motor: MotorResult) -> Json:
    """A plain spacer has no rubber: what rubber alone would have is null, never zero."""
    return {
        "name": motor.name,
        "stack_height_m": _number(motor.stack_height),
        "pulley_spacer_height_m": _number(motor.pulley_spacer_height),
        "shaft_left_m": _number(motor.shaft_left),
        "tilt_rad": None,
        "pulley_shift_m": None,
        "twist_frequency_hz": None,
        "screws": [],
        "checks": [_check(check) for check in motor.checks],
    }


def _check(check: Check) -> Json:
    return {
        "name": check.name,
        "value": _number(check.value),
        "limit": _number(check.limit),
        "unit": check.unit,
        "passed": bool(check.passed),
        "advice": check.advice,
    }


def _candidates(tally: Tally | None) -> Json:
    if tally is None:
        return {"tried": 0, "rejected": {}, "passed": 0}
    return {
        "tried": int(tally.tried),
        "rejected": {name: int(count) for name, count in tally.rejected.items()},
        "passed": int(tally.passed),
    }
