"""What else would do, and what a design rests on, in one breath."""

from __future__ import annotations

import re
from collections.abc import Sequence

from isolator.feet.kinds import KEEP
from isolator.report.findings import Alternative, Findings
from isolator.report.sentences.folds import worst_of
from isolator.report.sentences.heard_words import SAME, UNIT, damped
from isolator.report.sentences.numbers import number
from isolator.vibration.results import Evaluation

PLAIN_DB = 3.0
"""What else would help is told in short from so many decibels on [dB(A)]."""
_GUESSED = (
    (r"printer\.center_of_mass", "centre of mass"),
    (r"printer\.inertia", "inertia"),
    (r"motion\.(tool|gantry|bed)_mass", "moving masses"),
    (r"motion\.acceleration", "acceleration"),
    (r"motion\.steps_per_turn", "motors' step angle"),
    (r"motor|motor\[\d+\]\.(position|holding_torque|rotor_inertia)", "motors"),
    (r"frame\.(kind|frequency)", "how stiff the frame is"),
    (r"desk\.kind=rigid", "a hard floor under it"),
    (r"desk\.(material|thickness)", "desk"),
    (r"desk\.size", "desk's size"),
    (r"motion\.belt_(stiffness|tension)", "belts' stiffness and pull"),
    (r"feet\.attachment", "how feet are fixed"),
    (r"feet\.(inset|positions)", "where feet stand"),
    (r"slab\.position", "where the slab lies"),
    (r"limits\.sway", "sway limit"),
    (r"limits\.desk_friction", "grip on the desk"),
    (r"room\.temperature_(low|high)", "room temperature"),
    (r"print\.bed", "print bed"),
)
"""What is told of what was assumed, by its key, what matters most first."""


def other_words(findings: Findings) -> tuple[str, ...]:
    """Return the best of each other kind, dampers not counted, and how to take it."""
    own = {each.kind for each in findings.alternatives if each.chosen}  # told above
    kinds = [
        each
        for each in findings.alternatives
        if not each.chosen
        and (each.paver or (each.why == f"best {each.kind}" and each.kind not in own))
    ]
    kept = any(each.kind == KEEP and not each.chosen for each in findings.alternatives)
    bare = damped(findings.chosen)
    # beside a headline with dampers others would look worse than they are
    ours = [each for each in findings.alternatives if each.chosen and each.heard and bare]
    rows = [*((_named(each), each) for each in kinds), *(("these", each) for each in ours)]
    told = _in_a_row(rows) if kinds else ""
    words = [told, f"or {KEEP} today's feet" if kept else ""]
    how = ": --pick KIND" if told or kept else ""
    if told and bare:
        words[0] = f"{told} (without dampers)"
    return (f"{', '.join(each for each in words if each)}{how}",) if how else ()


def _named(each: Alternative) -> str:
    """Return the name of other feet: their kind, a paver with its mass."""
    return f"{each.kind} of {number(each.paver.mass, 2)} kg" if each.paver else each.kind


def sway_words(findings: Findings) -> tuple[str, ...]:
    """Return what another sway limit would buy."""
    told = _in_a_row(
        [
            (f"{each.sway_limit * 1e3:g} mm", each)
            for each in findings.alternatives
            if each.why.startswith("best with")
        ]
    )
    return (f"if you allow {told} (limits.sway)",) if told else ()


def _in_a_row(told: Sequence[tuple[str, Alternative]]) -> str:
    """Return gains by name; where all are quieter the unit is told once, behind the last."""
    gains = [(name, least_gain(each)) for name, each in told]
    if gains and all(gain > 0 for _, gain in gains):
        return f"{', '.join(f'{name}: {gain}' for name, gain in gains)} {UNIT} quieter"
    return ", ".join(f"{name}: {_change(gain)}" for name, gain in gains)


def least_gain(each: Alternative) -> int:
    """Return how much quieter other feet are at the speed where they gain least [dB(A)], whole."""
    return round(-worst_of(each).nominal)


def _change(gain: int) -> str:
    if gain == 0:
        return SAME
    return f"{abs(gain)} {UNIT} {'quieter' if gain > 0 else 'louder'}"


def help_items(found: Evaluation) -> tuple[str, ...]:
    """Return what else would plainly help, on these feet."""
    told = []
    for each in found.helps:
        frame, desk = (round(-band.nominal) for band in (each.heard.frame, each.heard.desk))
        if max(frame, desk) >= PLAIN_DB:
            where = "through the desk" if desk >= frame else "into the frame"
            name = re.sub(r", or [^,]*,", "", each.name)
            told.append(f"{name}: {max(frame, desk)} {UNIT} less {where}")
    return tuple(told)


def guessed_items(findings: Findings) -> tuple[str, ...]:
    """Return what was assumed that matters, what matters most first."""
    keys = {name for each in findings.assumed for name in (each.key, f"{each.key}={each.value}")}
    return tuple(words for key, words in _GUESSED if any(re.fullmatch(key, name) for name in keys))
