"""What each fold of the report says while it is closed."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.report.findings import Alternative, Findings, Paver
from isolator.report.sentences.checks import margin
from isolator.report.sentences.heard_words import UNIT, change
from isolator.report.sentences.numbers import number, readable
from isolator.report.sentences.short_checks import closest
from isolator.report.sentences.speeds import share
from isolator.vibration.band import Band, Check, failed
from isolator.vibration.results import Evaluation


def loads(found: Evaluation) -> str:
    """Return what the feet carry, from the least to the most."""
    carried = [foot.load.nominal for foot in found.feet]
    low, high = number(min(carried), 2), number(max(carried), 2)
    span = f"{low} N" if low == high else f"{low} to {high} N"
    return f"{len(carried)} feet, {span} on each"


def foot(findings: Findings) -> str:
    """Return how high the highest foot is."""
    tall = [check.value for check in findings.checks if check.name == "foot height"]
    return f"{number(tall[0])} mm high, unloaded" if tall else ""


def creep(found: Evaluation) -> str:
    """Return how far the feet sag in the longest time told."""
    if not found.creep:
        return "not known"
    last = found.creep[-1]
    return f"{readable(last.sag, 'm', 2)} after {last.label}"


def modes(found: Evaluation) -> str:
    """Return between which frequencies modes lie."""
    told = [mode.frequency.nominal for mode in found.modes]
    return f"{number(min(told), 2)} to {number(max(told), 2)} Hz" if told else ""


def sway(found: Evaluation) -> str:
    """Return the worst sway and its limit."""
    worst, limit = (readable(each, "m", 2) for each in (found.sway.worst, found.sway.limit))
    return f"{worst} at worst, limit {limit}"


def held(checks: Sequence[Check]) -> str:
    """Return how many of some checks fail, or that all hold, and which comes closest."""
    broken, near = failed(checks), closest(checks)
    if broken:
        return f"{len(broken)} of {len(checks)} {'fails' if len(broken) == 1 else 'fail'}"
    told = f"all {len(checks)} hold"
    return told if near is None else f"{told}; closest: {near.name}, {margin(near)}"


def sure(found: Evaluation) -> str:
    """Return how many of the samples keep modes and sway in bounds."""
    told = "all" if found.share >= 1.0 else share(found.share)
    return (
        f"How sure: in {told} of the printers drawn at random over the scatter of material, frame, "
        "weights and temperature, every mode stays below the motors' drone at your slowest speed "
        "and the sway within its limit."
    )


def others(findings: Findings) -> str:
    """Return how many other feet are told."""
    count = sum(not each.chosen for each in findings.alternatives)
    return f"{count} beside the chosen ones"


def helps(found: Evaluation) -> str:
    """Return the best of what else would help."""
    best = found.helps[0]
    frame, desk = best.heard.frame.nominal, best.heard.desk.nominal
    where = "through the feet" if desk < frame else "straight into the frame"
    return f"{best.name}: {abs(round(min(frame, desk)))} {UNIT} less {where}"


def search(findings: Findings) -> str:
    """Return how many candidates were tried."""
    tally = findings.tally
    if tally is None:
        return "nothing was searched"
    return f"{number(tally.tried, 9)} tried, {number(tally.passed, 9)} held every limit"


def worst_of(each: Alternative) -> Band:
    """Return the change at the speed where feet gain least [dB(A)]."""
    return max(each.heard, key=lambda band: band.nominal)


def choice(each: Alternative) -> str:
    """Return what other feet are: how many, of what, how large, where it is got, why told."""
    if not each.material:
        return each.why
    on = f"{paver_words(each.paver)} on " if each.paver else ""
    size = " × ".join(number(1e3 * side) for side in each.size)
    layers = f" in {each.layers} layers" if each.layers > 1 else ""
    got = f"; {each.where}" if each.where else ""
    why = "" if each.chosen else f" ({each.why})"
    return f"{on}{each.feet} × {each.material}, {each.shape} {size} mm{layers}{got}{why}"


def paver_words(paver: Paver) -> str:
    """Return what slab to buy: "a concrete paver of 420 × 440 × 40 mm, some 17 kg,"."""
    size = " × ".join(number(1e3 * side) for side in paver.size)
    return f"a concrete paver of {size} mm, some {number(paver.mass, 2)} kg,"


def gained(band: Band, sways: float) -> str:
    """Return a change heard and the sway [m] that goes with it."""
    return f"{change(band)}; sways {readable(sways, 'm', 2)}"
