"""The fit coupon and what was read on it, as JSON: SI floats, null where nothing was read."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from isolator.brief import Print
from isolator.brief.fit import Fit, Offset
from isolator.design.coupon import BY_LETTER, FEATURES
from isolator.report.sentences.fit_text import nut_play


def coupon_json(folder: Path, manifest: Mapping[str, Any]) -> dict[str, Any]:
    """Return what was drawn as JSON, SI."""
    return {
        "folder": str(folder),
        "files": sorted(manifest["files_sha256"]),
        **manifest["coupon"],
        "features": [
            {
                "letter": each.letter,
                "kind": each.kind,
                "nominal_m": each.nominal,
                "what": each.what,
                "how": each.how,
            }
            for each in FEATURES
        ],
    }


def taken_json(
    readings: Mapping[str, float], fit: Fit, own: Print, warnings: list[str]
) -> dict[str, Any]:
    """Return readings and what follows as JSON, SI; null where nothing of the kind was read."""
    return {
        "readings": [
            {
                "letter": letter,
                "kind": feature.kind,
                "nominal_m": feature.nominal,
                "measured_m": readings[letter],
            }
            for letter, feature in BY_LETTER.items()
            if letter in readings
        ],
        "holes_small": _offset_json(fit.holes),
        "hexagons_small": _offset_json(fit.hexagons),
        "pegs_large": _offset_json(fit.pegs),
        "bar_long_m": fit.width,
        "first_layer_spread_m": fit.spread,
        "nut_play_m": None if fit.hexagons is None else nut_play(fit.hexagons, own),
        "hole_compensation_m": own.hole_compensation,
        "first_layer_chamfer_m": own.first_layer_chamfer,
        "warnings": warnings,
    }


def _offset_json(offset: Offset | None) -> dict[str, Any] | None:
    if offset is None:
        return None
    return {"mean_m": offset.mean, "scatter_m": offset.scatter, "left_out": list(offset.left_out)}
