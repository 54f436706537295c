"""Quantities as people write them ("11.8 kg", "3 thou") to SI floats and back.

The only module that knows the unit library. Number and unit are split here, so the library never
sees a number and never evaluates anything; it is asked what one well-formed unit is worth, and
only when the unit is not one of the everyday ones below. That keeps its 0.3 s of loading out of
most runs, and its cache, which would write outside the output folder, is not used.

Temperatures are absolute, in degrees Celsius inside as well as outside ("296.15 K" is 23.0); a
difference of temperatures is not read. Frequencies are cycles or turns a second: "5000 rpm" is
83.3 Hz, not 523.6 rad/s.
"""

from __future__ import annotations

import math
import re
from decimal import Decimal
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pint

LARGEST_EXPONENT = 15
LARGEST_TEXT = 60

KINDS = {
    "m": "a length",
    "kg": "a mass",
    "degC": "a temperature",
    "Hz": "a frequency",
    "m/s": "a speed",
    "m/s^2": "an acceleration",
    "N": "a force",
    "N*m": "a torque",
    "N/m": "a stiffness",
    "N*m/rad": "an angular stiffness",
    "Pa": "a pressure or modulus",
    "kg*m": "an unbalance",
    "kg*m^2": "a moment of inertia",
    "kg/m^3": "a density",
    "kg/m": "a mass a length",
    "m^2": "an area",
    "rad": "an angle",
    "s": "a time",
    "A": "a current",
    "V": "a voltage",
    "ohm": "a resistance",
    "H": "an inductance",
}
"""What a quantity in each of the units used inside is called."""

_EVERYDAY: dict[str, tuple[str, int, int]] = {
    "m": ("m", 1, 1),
    "cm": ("m", 1, 100),
    "mm": ("m", 1, 1000),
    "um": ("m", 1, 10**6),
    "µm": ("m", 1, 10**6),
    "in": ("m", 127, 5000),
    "kg": ("kg", 1, 1),
    "g": ("kg", 1, 1000),
    "m/s": ("m/s", 1, 1),
    "mm/s": ("m/s", 1, 1000),
    "m/s^2": ("m/s^2", 1, 1),
    "mm/s^2": ("m/s^2", 1, 1000),
    "N": ("N", 1, 1),
    "N*m": ("N*m", 1, 1),
    "N/m": ("N/m", 1, 1),
    "N/mm": ("N/m", 1000, 1),
    "Hz": ("Hz", 1, 1),
    "rpm": ("Hz", 1, 60),
    "Pa": ("Pa", 1, 1),
    "kPa": ("Pa", 1000, 1),
    "MPa": ("Pa", 10**6, 1),
    "GPa": ("Pa", 10**9, 1),
    "kg*m^2": ("kg*m^2", 1, 1),
    "g*cm^2": ("kg*m^2", 1, 10**7),
    "g*mm": ("kg*m", 1, 10**6),
    "kg/m^3": ("kg/m^3", 1, 1),
    "kg/m": ("kg/m", 1, 1),
    "g/m": ("kg/m", 1, 1000),
    "m^2": ("m^2", 1, 1),
    "cm^2": ("m^2", 1, 10**4),
    "rad": ("rad", 1, 1),
    "deg": ("rad", 3141592653589793238, 180 * 10**18),
    "A": ("A", 1, 1),
    "V": ("V", 1, 1),
    "ohm": ("ohm", 1, 1),
    "H": ("H", 1, 1),
    "mH": ("H", 1, 1000),
    "degC": ("degC", 1, 1),
    "°C": ("degC", 1, 1),
}
"""Everyday units: the unit used inside and the ratio to it, as whole numbers so that 11.8 g is
0.0118 kg to the last digit (held against the library in a test)."""

_SHOWN = {
    "m": "mm",
    "m/s": "mm/s",
    "m/s^2": "mm/s^2",
    "Pa": "MPa",
    "N/m": "N/mm",
    "kg*m": "g*mm",
    "kg/m": "g/m",
    "m^2": "cm^2",
    "rad": "deg",
    "H": "mH",
}
"""The unit in which people would write a quantity, where it is not the one used inside."""

_WEIGHED = {
    "kg": "kg*standard_gravity",
    "N": "N/standard_gravity",
    "N*m": "N*m/standard_gravity",
    "N/m": "N/m/standard_gravity",
    "Pa": "Pa/standard_gravity",
}
"""What is typed by weight, in the unit in which its number is the one that is meant."""

_SPELLING = str.maketrans({"·": "*", "⋅": "*", "×": "*", "μ": "µ", "²": "^2", "³": "^3"})
_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE]([+-]?[0-9]+))?(?![0-9.,_])")
_FACTOR = r"[A-Za-zµ°Ω][A-Za-zµ°Ω_]*(?:\^-?[1-9])?"
_UNIT = re.compile(rf"(?:1/)?{_FACTOR}(?:[*/]{_FACTOR}){{0,5}}")


class NotReadError(ValueError):
    """A text is not the quantity that is wanted; says what is."""


def amount(text: str, unit: str) -> float:
    """Return what `text` ("18 mm") says, in `unit`, a key of `KINDS` [unit].

    Any unit of the same dimension is taken. Temperatures are absolute [°C]; a frequency may be
    written in turns, radians or degrees a time and is returned in cycles a second [Hz].
    Raises NotReadError for a missing, unknown or wrong unit, an expression, a number that is not
    finite or whose size has no place here (beyond 1e15).
    """
    kind = KINDS[unit]
    found = split(text)
    if found is None:
        raise NotReadError(f"{kind} with its unit")
    number, name = found
    exponent = _NUMBER.match(number)
    if exponent and exponent.group(1) and abs(int(exponent.group(1))) > LARGEST_EXPONENT:
        raise NotReadError(f"{kind} of ordinary size")
    if _UNIT.fullmatch(name) is None:
        raise NotReadError(f"{kind} with its unit")
    value = _convert(number, name, unit)
    if value is None:
        raise NotReadError(f"{kind}, in one of its units")
    if not abs(value) <= 10.0**LARGEST_EXPONENT:
        raise NotReadError(f"{kind} of ordinary size")
    return value


def split(text: str) -> tuple[str, str] | None:
    """Return the number that `text` begins with and what follows it as a unit is spelled.

    None where there is no number, or where the text is too long for one quantity.
    """
    text = text.replace("\N{NO-BREAK SPACE}", " ").strip()
    number = _NUMBER.match(text)
    if number is None or len(text) > LARGEST_TEXT:
        return None
    return number.group(), spelled(text[number.end() :])


def is_unit(name: str) -> bool:
    """Return whether `name` is written as units are, known or not."""
    return _UNIT.fullmatch(name) is not None


def format_quantity(value: float, unit: str, digits: int = 6) -> str:
    """Return an SI `value` (°C for a temperature, Hz for a frequency) as text in `unit`.

    Raises ValueError for a unit that is none.

    >>> format_quantity(0.0127, "mm"), format_quantity(5000 / 60, "rpm")
    ('12.7 mm', '5000 rpm')
    """
    return f"{value / _factor_to_si(spelled(unit)):.{digits}g} {unit}"


def write_like(number: str, unit: str, show: str = "") -> str:
    """Return how `number` should be written in `show`, else with the usual unit of the kind `unit`.

    >>> write_like("0.3", "kg")
    '"0.3 kg"'
    """
    return f'"{number} {show or shown_unit(unit)}"'


def shown_unit(unit: str) -> str:
    """Return the unit in which people write a quantity of the kind `unit` (a key of `KINDS`)."""
    return _SHOWN.get(unit, unit)


def spelled(unit: str) -> str:
    """Return a unit in one spelling: `*` between factors, `^` before a power, no spaces."""
    unit = unit.translate(_SPELLING).replace("**", "^").strip()
    return re.sub(r" +", "*", re.sub(r" *([*/^]) *", r"\1", unit))


def _convert(number: str, name: str, unit: str) -> float | None:
    """Return `number` in `unit`, or None where unit `name` is unknown or of another kind."""
    everyday = _EVERYDAY.get(name)
    if everyday is not None and everyday[0] == unit:
        return float(Decimal(number) * everyday[1] / everyday[2])
    if unit == "degC":
        return _celsius(float(number), name)
    ratio = _library_factor(name, unit)
    return None if ratio is None else float(number) * ratio


def everyday(unit: str) -> tuple[str, ...]:
    """Return the everyday units of the kind `unit`, a key of `KINDS`."""
    return tuple(name for name, row in _EVERYDAY.items() if row[0] == unit)


def is_everyday(name: str) -> bool:
    """Return whether `name` is one of the everyday units."""
    return name in _EVERYDAY


def by_weight(number: str, name: str, unit: str) -> float | None:
    """Return in `unit` what `number` of unit `name` is by its weight, None where that is nothing.

    A mass stands for the force that it weighs, a force for the mass that a scale shows.
    """
    ratio = _library_factor(name, _WEIGHED[unit]) if unit in _WEIGHED else None
    return None if ratio is None else float(number) * ratio


def _celsius(value: float, name: str) -> float | None:
    registry = _registry()
    try:
        if name.startswith("delta") or registry.get_dimensionality(name) != {"[temperature]": 1}:
            return None
        found = float(registry.Quantity(value, name).to("degC").magnitude)
    except Exception:  # the library raises a dozen kinds, all of them: no such unit
        return None
    return found


@lru_cache(maxsize=512)
def _library_factor(name: str, unit: str) -> float | None:
    """Return how many `unit` one `name` is, by the library; None where they do not compare."""
    registry = _registry()
    try:
        if registry.get_dimensionality(name) != registry.get_dimensionality(unit):
            return None
        factor = float(registry.convert(1.0, name, unit))
        angle = unit == "Hz" and "radian" in str(registry.get_base_units(name)[1])
    except Exception:  # the library raises a dozen kinds, all of them: no such unit
        return None
    return factor / math.tau if angle else factor


def _factor_to_si(name: str) -> float:
    if name in _EVERYDAY:
        return _EVERYDAY[name][1] / _EVERYDAY[name][2]
    for unit in KINDS:
        if unit != "degC":
            factor = _library_factor(name, unit)
            if factor is not None:
                return factor
    raise ValueError(f"{name} is no unit used here")


@cache
def _registry() -> pint.UnitRegistry[Any]:
    import pint  # 0.3 s with its registry: loaded when first needed

    return pint.UnitRegistry()
