"""Values of the JSON: finite floats or null, and records by the names of their fields."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from typing import SupportsFloat

import numpy as np

from isolator.brief.fit import Offset
from isolator.motors import results as motors
from isolator.reading.notes import Assumed
from isolator.report.sentences.checks import advice, relation, would_pass
from isolator.vibration import results as feet
from isolator.vibration.band import Band, Check

Json = dict[str, object]

NAMES: Mapping[type, str] = {
    Assumed: "key value why",
    Band: "low nominal high",
    Offset: "mean_m scatter_m left_out",
    feet.AvoidRange: "low_m_per_s high_m_per_s source mode",
    feet.CreepRow: "after=label time_s=seconds sag_m tilt_rad",
    feet.FootState: "position_m load_n strain sag_m stiffness_n_per_m",
    feet.Heard: "desk frame",
    feet.Help: "name heard_change_db=heard",
    feet.HeardOver: "speed_m_per_s low_db=low nominal_db=nominal high_db=high",
    feet.Load: "name frequencies=points",
    feet.LoadPoint: "frequency_hz transmitted_n transmissibility insertion_loss_db on_desk_db",
    feet.Mode: "name frequency_hz damping_ratio",
    feet.PrintEffect: "frequency_hz belts_hz shows_m less_acceleration_m slower_m stiffer_m",
    feet.Stability: "tip_margin slip_margin gravity_factor force_factor",
    feet.Worst: "direction_deg frequency_hz insertion_loss_db",
    feet.Sway: "worst_m usual_m at_feet_m step_m axis stroke_m speed_m_per_s limit_m",
    motors.Belt: "tension_n pull_n arm_m arm_before_m resonance_before_hz resonance_after_hz",
    motors.CurrentRow: "share_of_current=share torque_margin=margin ripple_db=ripple_db "
    "detent_db=detent_db power_w",
    motors.DamperLine: "source speed_m_per_s frequency_hz torque_loss_db=torque "
    "damper_loss_db=damper feet_loss_db=feet both_loss_db=both worst",
    motors.DamperWorst: "direction_deg frequency_hz torque_loss_db=torque "
    "beyond_feet_loss_db=beyond",
    motors.DamperMode: "name frequency_hz",
    motors.DriveRow: "speed_m_per_s turns_per_s electrical_hz torque_needed_nm=needed "
    "torque_available_nm=available",
    motors.MotorHeard: "speed_m_per_s heard_change_db=heard",
    motors.Heat: "power_w case_before_deg_c case_after_deg_c case_band_deg_c=case plate_deg_c "
    "softening_deg_c limit_deg_c",
}
"""Names of records' fields in the JSON, as `record` reads them."""

_UNIT = re.compile(r"_(m_per_s|n_per_m|nm_per_rad|per_s|deg_c|db|hz|nm|rad|m|n|s|v|w)$")


def number(value: SupportsFloat | None) -> float | None:
    """Return a plain float, None where it is unknown or not finite.

    >>> number(3), number(math.inf), number(None)
    (3.0, None, None)
    """
    return float(value) if value is not None and math.isfinite(value) else None


def plain(value: object) -> object:
    """Return texts and truths as they are, lists and records value by value, all else as floats.

    >>> plain(Band(low=1, nominal=2.5, high=math.inf))
    {'low': 1.0, 'nominal': 2.5, 'high': None}
    """
    if isinstance(value, str | bool):
        return value
    if isinstance(value, tuple | list | np.ndarray):
        return [plain(each) for each in value]
    if type(value) in NAMES:
        return record(value, NAMES[type(value)])
    assert value is None or isinstance(value, SupportsFloat), type(value)
    return number(value)


def record(value: object, names: str) -> Json:
    """Return fields of a record by `names` with their units, or as in "time_s=seconds".

    >>> record(feet.AvoidRange(low=0.02, high=0.03, source="turn", mode="sway"),
    ...        "low_m_per_s meets=mode")
    {'low_m_per_s': 0.02, 'meets': 'sway'}
    """
    told = {}
    for each in names.split():
        name, _, field = each.partition("=")
        told[name] = plain(getattr(value, field or _UNIT.sub("", name)))
    return told


LOSSES = ("loss_db", "on_desk_db", "against_now_db")
"""How keys of losses end: what they hold is promised up to a ceiling alone."""


def mark_promised(told: object, ceiling: float) -> None:
    """Set `promised` beside every loss in JSON: whether no more than `ceiling` [dB] is told.

    A band gets it among its numbers; beside plain numbers it is an object, one entry a key.
    """
    if isinstance(told, list):
        for each in told:
            mark_promised(each, ceiling)
    if not isinstance(told, dict):
        return
    for value in list(told.values()):
        mark_promised(value, ceiling)
    losses = {key: value for key, value in told.items() if key.endswith(LOSSES)}
    for value in losses.values():
        if isinstance(value, dict):
            value["promised"] = all(_within(each, ceiling) for each in value.values())
    plain = {k: _within(v, ceiling) for k, v in losses.items() if not isinstance(v, dict)}
    if plain:
        told["promised"] = plain


def _within(value: float | None, ceiling: float) -> bool:
    return value is not None and value <= ceiling


def check(told: Check) -> Json:
    """Return one check; `value` and `limit` are in `unit`."""
    return {
        **record(told, "name value limit unit"),
        "relation": relation(told),
        "passed": bool(told.passed),
        "binding": bool(told.binding),
        "advice": advice(told),
        "would_pass": [
            {
                "words": words,
                "key": None if key is None else key.name,
                "value": None if key is None else key.typed.format(value),
            }
            for words, key, value in would_pass(told)
        ],
    }
