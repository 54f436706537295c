"""How the report writes numbers: significant digits, workshop units, bands, decibels."""

from __future__ import annotations

import math

from isolator.vibration.band import Band


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
    >>> readable(0.000563, "m"), readable(0.0000021, "m"), readable(0.01246, "m")
    ('0.56 mm', '0.002 mm', '12.5 mm')
    """
    factor, shown = _SHOWN.get(unit, (1.0, unit))
    text = number(None if value is None else value * factor, digits)
    if shown == "mm" and value is not None and math.isfinite(value):
        text = _length(value * factor, text)
    return text if text == "–" or not shown else f"{text}{'' if shown == '°' else ' '}{shown}"


FINEST = 0.01
"""Of lengths that are told [mm]: nobody measures finer at a printer."""


def _length(value: float, text: str) -> str:
    """Return a length [mm] to a hundredth, a smaller one to one digit."""
    if abs(value) >= 1:
        return text
    return number(round(value, 2)) if abs(value) >= FINEST / 2 else number(value, 1)


def banded(value: Band, factor: float = 1.0) -> tuple[str, str, str]:
    """Return low, nominal and high times `factor`, with the digits that the band deserves.

    Its width is told to two digits. Without a width three digits of the value are told.

    >>> banded(Band(low=6.21, nominal=9.0, high=12.5))
    ('6.2', '9.0', '12.5')
    >>> banded(Band(low=23.7, nominal=32.9, high=45.8))
    ('24', '33', '46')
    """
    told = tuple(factor * each for each in _three(value))
    width = told[2] - told[0]
    if not math.isfinite(width) or width <= 0:
        return (number(told[0]), number(told[1]), number(told[2]))
    places = 1 - math.floor(math.log10(width))
    low, middle, high = (_fixed(each, places) for each in told)
    return low, middle, high


def _fixed(value: float, places: int) -> str:
    text = f"{round(value, places):,.{max(places, 0)}f}".replace(",", " ")
    return text.replace("-", "−")


def band(value: Band, unit: str) -> str:
    """Return nominal and range, with the digits that the range deserves.

    >>> band(Band(low=6.21, nominal=9.0, high=12.5), "Hz")
    '9.0 Hz (6.2 to 12.5)'
    >>> band(Band(low=2.0, nominal=2.0, high=2.0), "N")
    '2 N'
    """
    factor, shown = _SHOWN.get(unit, (1.0, unit))
    low, middle, high = banded(value, factor)
    told = f"{middle}{'' if shown in ('', '°') else ' '}{shown}"
    return told if low == high else f"{told} ({low} to {high})"


def decibel(value: float, ceiling: float = math.inf) -> str:
    """Return whole decibels, with no promise beyond `ceiling` [dB].

    >>> decibel(8.4, 30.0), decibel(-3.6, 30.0), decibel(41.0, 30.0), decibel(0.2)
    ('8', '−4', 'over 30', '0')
    """
    if not math.isfinite(value):
        return "–"
    if value > ceiling:
        return f"over {max(ceiling, 0.0):.0f}"
    return f"{round(value)}".replace("-", "−")


def decibel_band(value: Band, ceiling: float) -> str:
    """Return a band of decibels for a table.

    >>> decibel_band(Band(low=5.2, nominal=8.1, high=44.0), 30.0)
    '8 (5 to >30)'
    >>> decibel_band(Band(low=33.0, nominal=38.0, high=44.0), 25.0)
    '>25'
    """
    return _told(value, ceiling, "").replace("over ", ">")


def loss(value: Band, ceiling: float) -> str:
    """Return a loss in words, nominal and band.

    >>> loss(Band(low=8.2, nominal=12.1, high=41.0), 30.0)
    '12 dB (8 to over 30)'
    >>> loss(Band(low=-4.0, nominal=-1.0, high=2.0), 30.0)
    '−1 dB (−4 to 2)'
    """
    return _told(value, ceiling, " dB")


def _told(value: Band, ceiling: float, unit: str) -> str:
    low, mid, high = (decibel(x, ceiling) for x in _three(value))
    return f"{mid}{unit}" if low == mid == high else f"{mid}{unit} ({low} to {high})"


def gain(value: Band, ceiling: float) -> str:
    """Return what is gained, in words: "8 dB less (5 to 11)", "4 dB more (7 to 1 more)".

    >>> gain(Band(low=-2.0, nominal=3.0, high=6.0), 30.0)
    '3 dB less (2 more to 6 less)'
    >>> gain(Band(low=-7.0, nominal=-4.0, high=-1.0), 30.0)
    '4 dB more (7 to 1)'
    """

    def side(x: float) -> str:
        return "more" if round(x) < 0 else "less"

    low, mid, high = (decibel(abs(x), ceiling) for x in _three(value))
    lead = "about the same" if mid == "0" else f"{mid} dB {side(value.nominal)}"
    if low == mid == high:
        return lead
    if mid != "0" and side(value.low) == side(value.high):
        return f"{lead} ({low} to {high})"
    return f"{lead} ({low} {side(value.low)} to {high} {side(value.high)})"


def _three(value: Band) -> tuple[float, float, float]:
    return value.low, value.nominal, value.high


def least_ratio(ceiling: float) -> float:
    """Return the transmissibility below which nothing is promised, of `ceiling` [dB]."""
    return float(10 ** (-ceiling / 20))


def ratio(transmissibility: float, ceiling: float) -> str:
    """Return a transmissibility, with no promise beyond `ceiling` [dB].

    >>> ratio(1.337, 30.0), ratio(0.00042, 30.0)
    ('1.3', '<0.03')
    """
    floor = least_ratio(ceiling)
    return f"<{number(floor, 1)}" if transmissibility < floor else number(transmissibility, 2)
