"""Findings as JSON: SI floats, names carry units, bands as low, nominal, high."""

from __future__ import annotations

from datetime import UTC, datetime

from isolator.measuring.triage import triage
from isolator.report.findings import Alternative, Findings, Judged, Remedy, Tally
from isolator.report.json.motors import motor_json
from isolator.report.json.triage import answers_json
from isolator.report.json.values import Json, check, mark_promised, plain, record
from isolator.report.sentences.cautions import cautions, of_step
from isolator.report.sentences.desks import desk_words
from isolator.report.sentences.headline import verdict_words
from isolator.report.sentences.remedies import remedy_words
from isolator.report.sentences.speeds import reason
from isolator.vibration.results import Evaluation, Line, Speed


def to_json(findings: Findings) -> Json:
    """Return everything a run found as plain dicts, lists, strings, booleans, ints and floats.

    A number that is not finite becomes None, so that the text is JSON in the strict sense. Beside
    every loss stands whether it is `promised`: beyond the ceiling none is.
    Candidates are all zero where nothing was searched.
    """
    chosen = findings.chosen
    told: Json = {
        **record(findings, "name version passed answer make"),
        **_evaluation(chosen, findings.ceiling_db),
        "motors": [motor_json(motor) for motor in findings.motors],
        "checks": [check(each) for each in findings.checks],
        "candidates": _candidates(findings.tally),
        "alternatives": [_alternative(each) for each in findings.alternatives],
        "kept": findings.kept,
        "assumed": plain(findings.assumed),
        "steps": [
            {
                "number": rank,
                **record(step, "title uses words"),
                "cautions": of_step(step),
                "picture": step.pictured,
            }
            for rank, step in enumerate(findings.steps, 1)
        ],
        **record(findings, "sources warnings"),
        "cautions": cautions(findings),
    }
    if findings.remedy is not None:
        told["remedy"] = _remedy(findings.remedy)
    if findings.noise:
        told["triage"] = answers_json(findings.noise, *triage(findings.noise))
    if findings.judged is not None:
        told["judged"] = _judged(findings.judged)
    if findings.now is not None:
        told["now"] = _evaluation(findings.now, findings.ceiling_db)
    mark_promised(told, findings.ceiling_db)
    told["promised_up_to_db"] = findings.ceiling_db
    return told


def _judged(judged: Judged) -> Json:
    made = datetime.fromtimestamp(judged.made, UTC)
    return {
        "feet": judged.feet,
        "file": judged.file,
        "made": made.isoformat(timespec="seconds"),
    }


def _evaluation(found: Evaluation, ceiling: float) -> Json:
    return {
        "modes": plain(sorted(found.modes, key=lambda mode: mode.frequency.nominal)),
        "feet": plain(found.feet),
        "speeds": [_speed(speed, ceiling) for speed in found.speeds],
        **record(found, "loads sway stability avoid isolates_from_m_per_s creep tilt_rad"),
        **record(found, "share_on_target=share"),
        "desk": desk_words(found.desk),
        "baseline": found.baseline or None,
        "heard_over": plain(found.heard_over),
        "works_from_m_per_s": plain(found.works_from),
        "helps": plain(found.helps),
        "prints": plain(found.prints),
    }


def _speed(speed: Speed, ceiling: float) -> Json:
    return {
        **record(speed, "speed_m_per_s verdict amplified_share"),
        "told": verdict_words(speed)[1],  # what screen and report say of it
        "reason": reason(speed),
        "heard_change_db": plain(speed.heard),
        "lines": [_line(line) for line in speed.lines],
    }


def _line(line: Line) -> Json:
    told = "source frequency_hz direction_deg transmissibility insertion_loss_db on_desk_db worst"
    return record(line, told if line.against_now is None else f"{told} against_now_db")


def _alternative(told: Alternative) -> Json:
    return {
        **record(told, "kind why material shape size_m layers feet"),
        "layers": told.layers,
        "feet": told.feet,
        **record(told, "heard_change_db=heard sway_m sway_limit_m where chosen"),
        "slab": None if told.paver is None else record(told.paver, "size_m mass_kg=mass"),
    }


def _remedy(told: Remedy) -> Json:
    return {
        **record(told, "kind passes"),
        # a new design: what is typed for it, not for the feet that are told
        "design_from": told.design_from or None,
        "pick": told.pick or None,
        "keys": {} if told.design_from and told.pick else dict(told.keys),
        "words": remedy_words(told),
        **record(told, "speed_m_per_s heard_change_db=change least_mass_kg=least_mass"),
    }


def _candidates(tally: Tally | None) -> Json:
    if tally is None:
        return {"tried": 0, "rejected": {}, "passed": 0, "shut_out": {}, "quieter_without": {}}
    return {
        "tried": int(tally.tried),
        "rejected": {name: int(count) for name, count in tally.rejected.items()},
        "passed": int(tally.passed),
        "shut_out": {name: list(families) for name, families in tally.shut_out.items()},
        "quieter_without": dict(tally.without),
    }
