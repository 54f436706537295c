"""A squash test as JSON: SI floats, null for what the readings do not tell."""

from __future__ import annotations

from isolator.measuring.squashed import FeetChange, OnCard, Squashed
from isolator.report.json.values import Json, check, plain
from isolator.report.sentences.squash import doubt_words


def squash_json(told: Squashed) -> Json:
    """Return what a squash test has found.

    `rms` is what the law leaves of the compressions over the largest of them, `hysteresis` the
    share of the work of loading that the last loop keeps. `youngs_modulus_pa` is as squashed, of a
    print that of the whole piece; the card tells it at its own temperature. `ways` are the
    readings, from the zero that the fit gives each run.
    """
    fit, card, runs = told.fit, told.card, told.runs
    return {
        "card": {
            "id": card.id,
            "file": str(told.file),
            "youngs_modulus_pa": plain(fit.modulus),
            "spread": plain(card.stiffness_spread),
            "lent_by": told.base.id,
        },
        "fit": {
            "law": fit.law,
            "rms": plain(fit.rms),
            "hysteresis": plain(runs.lost),
            "creep_per_decade": plain(runs.creep),
            "runs_apart": plain(fit.apart),
            "strain": plain(fit.curve[0]),
            "stress_pa": plain(fit.curve[1]),
            "ways": [
                {"fitted": used, "strain": plain(strain), "stress_pa": plain(stress)}
                for used, strain, stress in fit.dots
            ],
        },
        "readings": len(told.readings.force),
        "plot": str(told.plot),
        "warnings": [doubt_words(each) for each in told.doubts],
        "feet": None if told.feet is None else _feet(told.feet),
    }


def _feet(change: FeetChange) -> Json:
    return {
        "design": change.file,
        "speeds_m_per_s": plain(change.speeds),
        "before": _on_card(change.before),
        "after": _on_card(change.after),
    }


def _on_card(found: OnCard) -> Json:
    return {
        "material": found.material,
        "bounce_hz": plain(found.bounce),
        "strain": plain(found.strain),
        "sway_m": plain(found.sway),
        "checks": [check(each) for each in found.checks],
        "heard_change_db": plain(found.heard),
    }
