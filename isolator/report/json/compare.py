"""Two recordings of the same moves as JSON, SI; ends of bands that nothing holds are null."""

from __future__ import annotations

from isolator.measuring.before_after import BandChange, StepChange, ToneChange
from isolator.measuring.change import Change
from isolator.report.json.values import Json, number, plain
from isolator.report.sentences.compare_text import Told, doubts


def compare_json(told: Told) -> Json:
    """Return what two recordings tell as JSON.

    Of a step: `by_lines` whether its change is that of the lines that stand out of the room, not of
    all that was recorded; `near_room` whether it is within 3 dB of the room; `beats` whether two
    motors turn at one speed, so that no single step is sure, null where no brief tells;
    `predicted_db` counts feet alone; `tones` is the change of each line that stands out.
    """
    found = told.changes
    loudest = max(step.before for step in found.steps)
    return {
        "clock_ratio": number(told.clock_ratio),
        "clocks": {
            name: number(each.ratio)
            for name, each in zip(("before", "after"), told.aligned, strict=True)
        },
        "place": told.place,
        "unit": told.unit,
        "band_hz": [number(each) for each in told.band],
        "whole": _change(found.whole),
        "steps": [_step(told, step, loudest) for step in found.steps],
        "bands": [_band(band) for band in found.bands],
        "room_change_db": number(found.floor),
        "automatic_gain": {
            name: bool(each)
            for name, each in zip(("before", "after"), found.automatic, strict=True)
        },
        "told_against_room": found.by_room,
        "warnings": doubts(told),
    }


def _change(told: Change) -> Json:
    return {"change_db": plain(told.change), "near_room": told.near_room}


def _step(told: Told, step: StepChange, loudest: float) -> Json:
    both = {"before": step.before, "after": step.after}
    levels: Json = {
        "level_over_loudest_db": {name: number(_over(each, loudest)) for name, each in both.items()}
    }
    if all(told.calibrated):
        levels["rms"] = {name: number(each**0.5) for name, each in both.items()}
    model = told.model(step)
    return {
        "speed_m_per_s": number(step.speed),
        "direction_deg": number(step.direction_deg),
        **_change(step),
        "by_lines": step.by_lines,
        "beats": step.beats if told.asked or told.sure(step) else None,
        "predicted_db": None if model is None else plain(model),
        **levels,
        "tones": [_tone(each) for each in step.tones],
    }


def _over(energy: float, unit: float) -> float | None:
    from isolator.measuring.change import decibel

    return decibel(energy / unit) if unit > 0.0 else None


def _tone(tone: ToneChange) -> Json:
    return {"source": tone.source, "frequency_hz": number(tone.frequency), **_change(tone)}


def _band(band: BandChange) -> Json:
    return {"centre_hz": number(band.centre), **_change(band)}
