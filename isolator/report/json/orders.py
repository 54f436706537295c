"""An order map as JSON, SI."""

from __future__ import annotations

from isolator.measuring.order_map import Ridge
from isolator.report.json.values import Json, number, plain, record
from isolator.report.sentences.orders_text import PARTS, Told, doubts, map_lines


def orders_json(told: Told) -> Json:
    """Return what a recording of the moves tells as JSON."""
    play = told.play
    return {
        "clock_ratio": number(told.aligned.ratio),
        "place": told.place,
        "band_hz": [number(each) for each in told.band],
        "sources": [_ridge(each) for each in told.ridges],
        "resonances": [record(each, "frequency_hz grown_db crossings") for each in told.resonances],
        "steady_hz": [number(each) for each in told.hums],
        "levels": [
            {"speed_m_per_s": number(speed), "over_quietest_db": number(level)}
            for speed, level in zip(told.levels.speed, told.levels.level, strict=True)
        ],
        "avoid": [
            record(each, "low_m_per_s high_m_per_s over_db source directions_deg")
            for each in told.avoid
        ],
        "rattle": [
            record(each, "speed_m_per_s direction_deg kurtosis rate_hz source")
            for each in told.rattles
        ],
        "rattle_heard": told.heard_rattle,
        "play": None
        if play is None
        else {
            "nominal_m": number(play.nominal),
            "rail_m": number(play.rail),
            "clearance_m": [number(1e-6 * each) for each in play.found],
            "usual_m": {
                name: [number(1e-6 * end) for end in each] for name, each in play.usual.items()
            },
            "loose": play.loose,
        },
        "automatic_gain": told.automatic,
        "told": map_lines(told),
        "warnings": doubts(told),
    }


def _ridge(ridge: Ridge) -> Json:
    told = record(ridge, "source over_db")
    return {
        **told,
        "part": PARTS.get(ridge.source),
        "cycles_per_m": number(ridge.order),
        "steps": plain(ridge.steps),
    }
