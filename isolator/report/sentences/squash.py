"""What `isolator squash` tells: doubts, and what a card changes."""

from __future__ import annotations

from isolator.measuring.squash_doubts import Doubt
from isolator.measuring.squashed import FeetChange, OnCard, Squashed
from isolator.report.sentences.numbers import banded, number, readable
from isolator.report.sentences.short_checks import found_and_wanted
from isolator.vibration.band import failed

SENTENCES = {
    "soft": "{told_k} kPa is softer than any rubber: is it foam? Then say so (family foam)",
    "few loads": "only {loads} loads in a run: {wanted} or more tell the curve better",
    "coarse gauge": "{span_m} of squeeze read in steps of {step_m}: stack more layers, read finer",
    "coarse scale": "loads {least_n} apart on a scale with steps of {step_n}: take larger ones",
    "height": "without load it measures {read_m}, by thickness and layers {told_m}: measure again",
    "little squeeze": "squeezed by {most} at most, feet may be by {limit}: pile up more weight, or "
    "take a smaller piece",
    "much squeeze": "squeezed by {most}, where feet are by no more than {limit}: the law is fitted "
    "to what they never see",
    "few in range": "only {loads} readings below {limit}, where feet stand: begin with less load",
    "first reading": "the reading without load does not lie on the curve and is left out: press "
    "the piece lightly once and take zero there",
    "own curve": "the smooth law does not follow the readings, a curve through them does: it "
    "carries their scatter",
    "runs apart": "runs differ by ×{ratio} in stiffness: wait a minute between them, and see that "
    "nothing leans",
    "one run": "one run alone, which breaks the piece in: squash it three times and note all",
    "large loop": "up and down differ by {share} of the work, usual is up to {usual}: wait the "
    "same minute under each load",
    "loop turned": "it gives back more work than it took: are up and down swapped?",
    "creep": "it gave by another {share} under a load that was held: note times (a column time "
    "[min]), and the card gets its creep",
    "friction": "slipping faces never slip freely: a flat piece (shape factor {shape}) reads too "
    "stiff by what friction is left; glue it between two boards, or stack it taller",
    "temperature": "squashed at {at}, told at {told} by the lent temperature slope",
}
UNITS = {"m": "m", "n": "N"}
PERCENT = ("most", "limit", "share", "usual")
DEGREES = ("at", "told")


def doubt_words(doubt: Doubt) -> str:
    """Return a doubt as a sentence.

    >>> doubt_words(Doubt(name="large loop", figures={"share": 0.41, "usual": 0.25}))[:47]
    'up and down differ by 41 % of the work, usual i'
    """
    told = {name: _figure(name, value) for name, value in doubt.figures.items()}
    return SENTENCES[doubt.name].format(**told)


def _figure(name: str, value: float) -> str:
    if name in PERCENT:
        return f"{number(100 * value, 2)} %"
    if name in DEGREES:
        return f"{number(value)} °C"
    unit = UNITS.get(name.rpartition("_")[2]) if "_" in name else None
    return readable(value, unit) if unit else number(value)


def found_words(told: Squashed) -> list[str]:
    """Return what a squash test has found: the modulus with its band, the fit, what is lost."""
    fit, runs = told.fit, told.runs
    scale, unit = (1e-6, "MPa") if fit.modulus.nominal >= 1e6 else (1e-3, "kPa")
    low, middle, high = banded(fit.modulus, scale)
    what = (
        "Young's modulus of the whole print" if told.base.family == "printed" else "Young's modulus"
    )
    lines = [
        f"{what}: {middle} {unit}, nine of ten within {low} to {high}",
        f"law: {fit.law}; leaves {number(100 * fit.rms, 2)} % of the largest squeeze",
    ]
    if runs.lost is not None:
        lines.append(f"up and down: a loop keeps {number(100 * runs.lost, 2)} % of the work")
    if runs.creep is not None:
        lines.append(f"creep: {number(100 * runs.creep, 2)} % a decade of time, now on the card")
    lent = f"damping, dynamic ratio and what else a squash does not tell: as {told.base.id}"
    return [*lines, lent]


def feet_words(change: FeetChange) -> list[str]:
    """Return what one's own card changes of designed feet, one row a card."""
    lines = [f"feet of {change.file}:"]
    for found in (change.before, change.after):
        low, middle, high = banded(found.bounce)
        heard = ", ".join(
            f"{decibels(band.nominal)} at {number(1e3 * speed)}"
            for band, speed in zip(found.heard, change.speeds, strict=False)
        )
        told = f"; heard {heard} mm/s [dB(A), minus: quieter]" if heard else ""
        lines.append(
            f"  {found.material}: bounce {middle} Hz (nine of ten: {low} to {high}), squeezed by "
            f"{number(100 * found.strain, 2)} %, sway {readable(found.sway, 'm', 2)}{told}; "
            f"{_checks_words(found)}"
        )
    return lines


def _checks_words(found: OnCard) -> str:
    """Return which checks of the feet fail on a card, with value and limit."""
    missed = failed(found.checks)
    if not missed:
        return f"all {len(found.checks)} checks hold"
    told = "; ".join(f"{each.name}: {found_and_wanted(each)}" for each in missed)
    count = "a check fails" if len(missed) == 1 else f"{len(missed)} checks fail"
    return f"{count}: {told}"


def decibels(value: float) -> str:
    """Return a change in whole decibels with its sign.

    >>> decibels(-9.4), decibels(0.2), decibels(2.6)
    ('−9', '0', '+3')
    """
    whole = round(value)
    return "0" if whole == 0 else f"{whole:+d}".replace("-", "−")
