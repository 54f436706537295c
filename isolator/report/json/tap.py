"""What taps told, as JSON."""

from __future__ import annotations

from isolator.measuring.tap_found import Corrected, TapFound
from isolator.measuring.tapped import TappedMode
from isolator.recordings.recording import Recording, Verdict
from isolator.report.json.values import Json, number, plain
from isolator.report.sentences.recorded import verdict_notes
from isolator.report.sentences.tap_text import cautions


def tap_json(found: TapFound) -> Json:
    """Return the key `tap`; `recording` is the first one, `recordings` all of them."""
    told = [recording_json(each) for each in found.recordings]
    return {
        "of": found.of,
        "recording": told[0],
        "recordings": [{"file": n, **each} for n, each in zip(found.names, told, strict=True)],
        "clock_ratio": number(found.clock_ratio),
        "taps": found.tapped.taps,
        "automatic_gain": any(each.gain.automatic for each in found.taps),
        "unexplained": number(found.tapped.left),
        "modes": [
            _mode(each, names)
            for each, names in zip(found.tapped.modes, found.names_of_modes, strict=True)
        ],
        "corrected": None if found.corrected is None else _corrected(found, found.corrected),
        "folds": [
            {
                "speed_m_per_s": number(fold.speed),
                "source": fold.source,
                "frequency_hz": number(fold.frequency),
                "seen_hz": number(fold.seen),
            }
            for fold in found.folds
        ],
        "warnings": cautions(found),
    }


def _corrected(found: TapFound, told: Corrected) -> Json:
    """Return what follows for a brief: factors on the model's feet, and the frame's frequencies."""
    matched = told.matched
    modes = found.tapped.modes
    return {
        "feet_of": told.feet_of,
        "matched": []
        if matched is None
        else [
            {
                "name": pair.names[0],
                "tapped_hz": number(modes[pair.tapped].frequency.nominal),
                "model_hz": number(pair.before),
                "corrected_hz": number(pair.after),
            }
            for pair in matched.pairs
        ],
        "untapped": []
        if matched is None
        else [
            {"name": each.name, "frequency_hz": number(each.frequency)} for each in matched.untapped
        ],
        "feet_sideways": None if matched is None else plain(matched.sideways),
        "feet_upright": None if matched is None else plain(matched.upright),
        "feet_loss": None if matched is None else plain(matched.feet_damping),
        "feet": [
            {
                "position_m": plain(foot.position),
                "stiffness_n_per_m": plain(foot.stiffness),
                "angular_nm_per_rad": plain(foot.angular),
                "loss_factor": plain(foot.loss_factor),
            }
            for foot in told.feet
        ],
        "frame_hz": plain(told.frame),
        "frame_follows_hz": plain(told.follows),
        "frame_damping_ratio": plain(told.frame_damping),
    }


def recording_json(recording: Recording) -> Json:
    """Return the verdict on a recording; times and frequencies by its own clock."""
    verdict: Verdict = recording.verdict
    low, high = verdict.usable_hz
    return {
        "rate_hz": number(verdict.rate_hz),
        "length_s": number(recording.length),
        "jitter": number(verdict.jitter),
        "gaps": [{"start_s": number(at), "length_s": number(long)} for at, long in verdict.gaps],
        "repeats": verdict.repeats,
        "clipped": verdict.clipped,
        "usable_hz": {"low": number(low), "high": number(high)},
        "unit": recording.unit,
        "calibrated": recording.calibrated,
        "channels": list(recording.channels),
        "notes": verdict_notes(verdict),
    }


def _mode(mode: TappedMode, names: tuple[str, ...]) -> Json:
    return {
        "name": names[0] if names else None,
        "or": list(names[1:]),
        "frequency_hz": plain(mode.frequency),
        "damping_ratio": plain(mode.damping),
        "taps": mode.taps,
        "share": number(mode.share),
        "shape": plain(mode.shape),
    }
