"""Findings as JSON: SI floats, names carry units, bands as low, nominal, high."""

from __future__ import annotations

from datetime import UTC, datetime

from isolator.report.findings import Findings, Judged, Tally
from isolator.report.json.motors import motor_json
from isolator.report.json.values import Json, band, check, mark_promised, number, numbers
from isolator.report.sentences.cautions import cautions, of_step
from isolator.report.sentences.speeds import desk_words, means, reason
from isolator.vibration.results import Evaluation, Line, Load, LoadPoint, Speed


def to_json(findings: Findings) -> Json:
    """Return everything a run found as plain dicts, lists, strings, booleans, ints and floats.

    A number that is not finite becomes None, so that the text is JSON in the strict sense. Beside
    every loss stands whether it is `promised`: beyond the ceiling none is.
    Candidates are all zero where nothing was searched.
    """
    chosen = findings.chosen
    told: Json = {
        "name": findings.name,
        "version": findings.version,
        "passed": findings.passed,
        "answer": list(findings.answer),
        "make": list(findings.make),
        **_evaluation(chosen, findings.ceiling_db),
        "motors": [motor_json(motor) for motor in findings.motors],
        "checks": [check(each) for each in findings.checks],
        "candidates": _candidates(findings.tally),
        "assumed": [{"key": a.key, "value": a.value, "why": a.why} for a in findings.assumed],
        "steps": [
            {
                "number": number,
                "title": step.title,
                "uses": list(step.uses),
                "words": list(step.words),
                "cautions": of_step(step),
                "picture": step.pictured,
            }
            for number, step in enumerate(findings.steps, 1)
        ],
        "sources": list(findings.sources),
        "warnings": list(findings.warnings),
        "cautions": cautions(findings),
    }
    if findings.judged is not None:
        told["judged"] = _judged(findings.judged)
    if findings.now is not None:
        told["now"] = _evaluation(findings.now, findings.ceiling_db)
    mark_promised(told, findings.ceiling_db)
    return told


def _judged(judged: Judged) -> Json:
    made = datetime.fromtimestamp(judged.made, UTC)
    return {
        "feet": judged.feet,
        "file": judged.file,
        "made": made.isoformat(timespec="seconds"),
    }


def _evaluation(found: Evaluation, ceiling: float) -> Json:
    sway, stability = found.sway, found.stability
    return {
        "modes": [
            {
                "name": mode.name,
                "frequency_hz": band(mode.frequency),
                "damping_ratio": number(mode.damping_ratio),
            }
            for mode in sorted(found.modes, key=lambda mode: mode.frequency.nominal)
        ],
        "feet": [
            {
                "position_m": numbers(foot.position),
                "load_n": band(foot.load),
                "strain": number(foot.strain),
                "sag_m": number(foot.sag),
                "stiffness_n_per_m": numbers(foot.stiffness),
            }
            for foot in found.feet
        ],
        "speeds": [_speed(speed, ceiling) for speed in found.speeds],
        "loads": [_load(load) for load in found.loads],
        "sway": {
            "worst_m": number(sway.worst),
            "at_feet_m": number(sway.at_feet),
            "step_m": number(sway.step),
            "axis": sway.axis,
            "stroke_m": number(sway.stroke),
            "speed_m_per_s": number(sway.speed),
            "limit_m": number(sway.limit),
        },
        "stability": {
            "tip_margin": number(stability.tip_margin),
            "slip_margin": number(stability.slip_margin),
            "gravity_factor": number(stability.gravity_factor),
            "force_factor": number(stability.force_factor),
        },
        **_beyond(found),
    }


def _beyond(found: Evaluation) -> Json:
    return {
        "avoid": [
            {
                "low_m_per_s": number(one.low),
                "high_m_per_s": number(one.high),
                "source": one.source,
                "mode": one.mode,
            }
            for one in found.avoid
        ],
        "isolates_from_m_per_s": number(found.isolates_from),
        "creep": [
            {
                "after": row.label,
                "time_s": number(row.seconds),
                "sag_m": number(row.sag),
                "tilt_rad": number(row.tilt),
            }
            for row in found.creep
        ],
        "tilt_rad": numbers(found.tilt),
        "share_on_target": number(found.share),
        "desk": desk_words(found.desk),
    }


def _speed(speed: Speed, ceiling: float) -> Json:
    return {
        "speed_m_per_s": number(speed.speed),
        "verdict": speed.verdict,
        "reason": reason(speed, ceiling),
        "lines": [_line(line) for line in speed.lines],
        "means_over_directions": [
            {
                "source": mean.source,
                "insertion_loss_db": number(mean.insertion_loss),
                "on_desk_db": number(mean.on_desk),
            }
            for mean in means(speed)
        ],
    }


def _line(line: Line) -> Json:
    told: Json = {
        "source": line.source,
        "frequency_hz": number(line.frequency),
        "direction_deg": number(line.direction_deg),
        "transmissibility": number(line.transmissibility),
        "insertion_loss_db": band(line.insertion_loss),
        "on_desk_db": band(line.on_desk),
    }
    if line.against_now is not None:
        told["against_now_db"] = band(line.against_now)
    return told


def _load(load: Load) -> Json:
    return {"name": load.name, "frequencies": [_load_point(point) for point in load.points]}


def _load_point(point: LoadPoint) -> Json:
    return {
        "frequency_hz": number(point.frequency),
        "transmitted_n": numbers(point.transmitted),
        "transmissibility": number(point.transmissibility),
        "insertion_loss_db": band(point.insertion_loss),
    }


def _candidates(tally: Tally | None) -> Json:
    if tally is None:
        return {"tried": 0, "rejected": {}, "passed": 0}
    return {
        "tried": int(tally.tried),
        "rejected": {name: int(count) for name, count in tally.rejected.items()},
        "passed": int(tally.passed),
    }
