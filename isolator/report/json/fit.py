"""The fit coupon and what was read on it, as JSON: SI floats, null where nothing was read."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from isolator.brief import Print
from isolator.brief.fit import Fit
from isolator.design.coupon import BY_LETTER, FEATURES
from isolator.report.json.values import Json, record
from isolator.report.sentences.fit_text import nut_play


def coupon_json(folder: Path, manifest: Mapping[str, Any]) -> Json:
    """Return what was drawn as JSON, SI."""
    return {
        "folder": str(folder),
        "files": sorted(manifest["files_sha256"]),
        **manifest["coupon"],
        "features": [record(each, "letter kind nominal_m what how") for each in FEATURES],
    }


def taken_json(readings: Mapping[str, float], fit: Fit, own: Print, warnings: list[str]) -> Json:
    """Return readings and what follows as JSON, SI; null where nothing of the kind was read."""
    return {
        "readings": [
            {**record(feature, "letter kind nominal_m"), "measured_m": readings[letter]}
            for letter, feature in BY_LETTER.items()
            if letter in readings
        ],
        **record(fit, "holes_small=holes hexagons_small=hexagons pegs_large=pegs"),
        **record(fit, "bar_long_m=width first_layer_spread_m=spread"),
        "nut_play_m": None if fit.hexagons is None else nut_play(fit.hexagons, own),
        **record(own, "hole_compensation_m first_layer_chamfer_m"),
        "warnings": warnings,
    }
