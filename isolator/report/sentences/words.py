"""The report's fixed sentences and how it writes numbers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from isolator.report.findings import Findings
from isolator.vibration.band import Band, Check
from isolator.vibration.isolation import DESK_FROM
from isolator.vibration.results import AvoidRange, Line, Speed
from isolator.vibration.verdict import least_cut

PROMISE_CEILING_DB = 30.0  # a home-made foot is not believed beyond this
WORSE_DB = -1.0  # a tone is called worse from here on: below every mode all feet add a little

CAUTIONS: tuple[str, ...] = (
    "Before you turn the printer over, pull the mains plug and wait until the supply has "
    "discharged.",
    "Never plug in or pull out a motor while the power is on: it can destroy the driver.",
    "Motors, nozzle and bed burn skin. Let them cool before you touch or unscrew anything.",
    "A motor on rubber or plastic no longer touches the frame electrically. Bond its body to the "
    "frame with a wire. Protective earth must never rely on feet or motor screws. If you are in "
    "doubt, ask an electrician and follow your local codes.",
    "Leave slack in every cable and hose: the printer now travels further than it did.",
    "Keep foam away from heater, bed underside and power supply, leave air intakes open, and "
    "never leave a print running unattended.",
    "A slab of 15 to 30 kg needs two people to lift it and a desk that carries it.",
    "A tall printer on soft feet tips more easily: think of children, pets and earthquakes, and "
    "give it a lip round the feet or a strap.",
    "Afterwards check belt path, homing, level and first layer, and stay with the first print.",
    "Soft feet spoil motion measurements taken on the printer. Tune it again once it stands on "
    "its final feet.",
)

DECIBEL = (
    "Decibels (dB) here say how much less vibration reaches the desk: 6 dB less is half the "
    "vibration, and a tone that falls by 10 dB sounds about half as loud. A minus means more, "
    "not less."
)
NO_PROMISE = (
    "These are figures for the feet, not a promise of a room's dB. At home, 5 to 10 dB is the "
    "most one can believe on a desk that acts as a sounding board, 0 to 2 dB on a stone floor "
    "(common practice, no source). Fans, rattles and the noise that motors send straight into "
    "the air do not pass through the feet and stay as they are."
)
ABOVE_100_HZ = (
    "Above about 100 Hz frames and desks bend and pads carry waves, so real feet do worse than "
    "the curve. Beyond 30 dB the report promises nothing."
)
DESK = f"Below {DESK_FROM:.0f} Hz a desk is taken as rigid."
RIPPLE = (
    "Which line is loudest on your motors is an estimate; how well the feet isolate each line "
    "does not depend on it."
)
BAND = (
    "A band runs over the scatter of the material, the mass range and the temperature: the value "
    "in the middle is the material card's own."
)

SOURCES: dict[str, str] = {
    "turn": "once a pulley turn, from run-out",
    "belt tooth": "each tooth that meets the pulley",
    "electrical": "each electrical cycle of the motor, from coil offset",
    "twice electrical": "twice a cycle, from unequal coils",
    "full step": "each full step, from the motor's detent",
    "microstep": "each microstep",
}
VERDICTS: dict[str, tuple[str, str]] = {
    "quiet": ("●", "quiet"),
    "neutral": ("■", "little change"),
    "amplified": ("▲", "amplified"),
}


def heading(findings: Findings) -> str:
    """Return the report's first words: whether there is a design, and whether it is good enough."""
    if findings.tally is None:
        if findings.passed:
            return "These feet meet every limit"
        return "These feet do not meet every limit"
    own = {each for motor in findings.motors for each in motor.checks}
    if all(check.passed or check in own for check in findings.checks) and not findings.passed:
        return "These feet meet every limit of the brief, but a motor does not hold all its checks"
    if findings.passed:
        met = [each.speed for each in findings.chosen.speeds if each.verdict == "amplified"]
        if met:
            at = " and ".join(f"{speed * 1e3:.0f}" for speed in met)
            return f"These feet meet every limit of the brief, but at {at} mm/s a tone meets a mode"
        return "These feet meet every limit of the brief"
    return "No design meets the limits; this is the nearest"


def number(value: float | None, digits: int = 3) -> str:
    """Return a number to `digits` significant digits, without exponent; a dash for none.

    >>> number(0.0312345), number(12345.6), number(-2.0), number(float("nan"))
    ('0.0312', '12 300', '−2', '–')
    """
    if value is None or not math.isfinite(value):
        return "–"
    if value == 0:
        return "0"
    places = digits - 1 - math.floor(math.log10(abs(value)))
    text = f"{round(value, places):,.{max(places, 0)}f}".replace(",", " ")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return text.replace("-", "−")


_SHOWN: dict[str, tuple[float, str]] = {
    "m": (1e3, "mm"),
    "m/s": (1e3, "mm/s"),
    "rad": (180 / math.pi, "°"),
    "Pa": (1e-3, "kPa"),
    "N/m": (1e-3, "N/mm"),
    "degC": (1.0, "°C"),
    "-": (1.0, ""),
    "1": (1.0, ""),
}


def readable(value: float | None, unit: str, digits: int = 3) -> str:
    """Return an SI value with the unit a workshop uses.

    >>> readable(0.00031, "m"), readable(0.06, "m/s"), readable(2.5, "-"), readable(7.25, "Hz")
    ('0.31 mm', '60 mm/s', '2.5', '7.25 Hz')
    """
    factor, shown = _SHOWN.get(unit, (1.0, unit))
    text = number(None if value is None else value * factor, digits)
    return text if text == "–" or not shown else f"{text}{'' if shown == '°' else ' '}{shown}"


def band(value: Band, unit: str) -> str:
    """Return nominal and range, such as "7.1 Hz (5.9 to 8.4)"."""
    factor, _ = _SHOWN.get(unit, (1.0, unit))
    low, high = number(value.low * factor), number(value.high * factor)
    return f"{readable(value.nominal, unit)} ({low} to {high})"


def decibel(value: float) -> str:
    """Return whole decibels, with no promise beyond the ceiling.

    >>> decibel(8.4), decibel(-3.6), decibel(41.0), decibel(0.2)
    ('8', '−4', 'over 30', '0')
    """
    if not math.isfinite(value):
        return "–"
    return "over 30" if value > PROMISE_CEILING_DB else f"{round(value)}".replace("-", "−")


def decibel_band(value: Band) -> str:
    """Return a band of decibels for a table.

    >>> decibel_band(Band(low=5.2, nominal=8.1, high=44.0))
    '8 (5 to >30)'
    >>> decibel_band(Band(low=33.0, nominal=38.0, high=44.0))
    '>30'
    """
    low, mid, high = (decibel(x).replace("over ", ">") for x in _three(value))
    return mid if low == mid == high else f"{mid} ({low} to {high})"


def gain(value: Band) -> str:
    """Return what is gained, in words: "8 dB less (5 to 11)", "4 dB more (7 to 1 more)".

    >>> gain(Band(low=-2.0, nominal=3.0, high=6.0)), gain(Band(low=-7.0, nominal=-4.0, high=-1.0))
    ('3 dB less (2 more to 6 less)', '4 dB more (7 to 1)')
    """

    def side(x: float) -> str:
        return "more" if round(x) < 0 else "less"

    low, mid, high = (decibel(abs(x)) for x in _three(value))
    lead = "no change" if mid == "0" else f"{mid} dB {side(value.nominal)}"
    if low == mid == high:
        return lead
    if mid != "0" and side(value.low) == side(value.high):
        return f"{lead} ({low} to {high})"
    return f"{lead} ({low} {side(value.low)} to {high} {side(value.high)})"


def _three(value: Band) -> tuple[float, float, float]:
    return value.low, value.nominal, value.high


def ratio(transmissibility: float) -> str:
    """Return a transmissibility, with no promise below the ceiling.

    >>> ratio(1.337), ratio(0.00042)
    ('1.3', '<0.03')
    """
    floor = 10 ** (-PROMISE_CEILING_DB / 20)
    return f"<{number(floor, 1)}" if transmissibility < floor else number(transmissibility, 2)


def weakest(speed: Speed) -> Line | None:
    """Return the line of the motors' drone that the feet isolate least, if there is one."""
    return least_cut(speed.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mean:
    """One line's nominal losses [dB], averaged over the directions of a move."""

    source: str
    insertion_loss: float
    on_desk: float


def means(speed: Speed) -> list[Mean]:
    """Return the mean loss of every motor line over the directions in which it sounds."""
    gathered: dict[str, list[Line]] = {}
    for line in speed.lines:
        if line.direction_deg is not None:
            gathered.setdefault(line.source, []).append(line)
    return [
        Mean(
            source=source,
            insertion_loss=fmean(line.insertion_loss.nominal for line in lines),
            on_desk=fmean(line.on_desk.nominal for line in lines),
        )
        for source, lines in gathered.items()
    ]


def margin(check: Check) -> str:
    """Return how far a check is from its limit, as a share of the limit or in its unit."""
    gap = abs(check.value - check.limit)
    word = "to spare" if check.passed else "short" if check.value < check.limit else "over"
    if not math.isfinite(gap):
        return "–"
    if check.limit == 0 or check.unit == "dB" or gap > 10 * abs(check.limit):
        return f"{readable(gap, check.unit)} {word}"
    return f"{number(100 * gap / abs(check.limit), 2)} % {word}"


def limit(check: Check) -> str:
    """Return the limit with its side, told from the value and whether it passed."""
    if check.value == check.limit:
        return readable(check.limit, check.unit)
    most = check.passed == (check.value < check.limit)
    return f"{'at most' if most else 'at least'} {readable(check.limit, check.unit)}"


def merged(avoid: Sequence[AvoidRange]) -> list[tuple[float, float, list[str]]]:
    """Return speeds to avoid [m/s] with overlapping ranges joined, and why, in order of speed."""
    joined: list[tuple[float, float, list[str]]] = []
    for one in sorted(avoid, key=lambda item: (item.low, item.high)):
        why = f"{one.source} meets {one.mode}"
        if joined and one.low <= joined[-1][1]:
            low, high, reasons = joined[-1]
            joined[-1] = (low, max(high, one.high), [*reasons, why])
        else:
            joined.append((one.low, one.high, [why]))
    return joined


def avoid_words(avoid: Sequence[AvoidRange]) -> list[str]:
    """Return the joined speeds to avoid as text, such as "22 to 34 mm/s"."""
    return [span(low, high) for low, high, _ in merged(avoid)]


def span(low: float, high: float) -> str:
    """Return a range of speeds [m/s] in whole mm/s, rounded outwards.

    >>> span(0.0205, 0.0301)
    '20 to 31 mm/s'
    """
    return f"{math.floor(low * 1e3 + 1e-9)} to {math.ceil(high * 1e3 - 1e-9)} mm/s"
