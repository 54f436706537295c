"""How a quantity that could not be read should be written, without changing what was meant.

A suggestion is the number that was typed, in a unit that was typed or in the one in which its key
is shown; or a conversion, told as such. Where neither is sure, none is made.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from isolator.reading.units import (
    NotReadError,
    amount,
    by_weight,
    everyday,
    format_quantity,
    is_unit,
    shown_unit,
    spelled,
    split,
    write_like,
)

Fits = Callable[[float], bool]

_MEANT = {
    "m": {'"': "in", "''": "in", "″": "in", "”": "in", "'": "ft", "′": "ft", "’": "ft"},
    "kg": {"kilo": "kg", "kilos": "kg", "Kilo": "kg"},
    "degC": {"C": "degC", "F": "degF", "c": "degC", "f": "degF", "Celsius": "degC"},
    "N*m": {"Nm": "N*m", "Ncm": "N*cm", "Nmm": "N*mm", "mNm": "mN*m", "nm": "N*m"},
    "ohm": {"R": "ohm", "r": "ohm"},
    "Hz": {"rps": "turn/s"},
}
"""What people write for a unit, by the unit used inside."""

_BY_WEIGHT = {"kg": "is {} on a scale", "N": "weighs {}"}
_NUMBER = r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)"
_COMMA = re.compile(r"([+-]?[0-9]+),([0-9]+)(?![0-9.,])(.*)")
_GROUPS = re.compile(r"([+-]?[0-9]{1,3}(?:[ _,'’][0-9]{3})+)(?![0-9,_])(.*)")
_SHARE = re.compile(r"(?:([0-9]{1,6})[ -])? ?([0-9]{1,6})/([0-9]{1,6})(?![0-9.])(.*)")
_BETWEEN = r" *(?:\.{2,3}|…|–|—|-|to|and|x|×|;|,(?= )) *"
_SEVERAL = re.compile(rf"(?=.*[^ ])({_NUMBER}(?:{_BETWEEN}{_NUMBER})+)(?![0-9.,_])(.*)")


def anything(value: float) -> bool:
    """Return that any value may be suggested."""
    return True


def how_to_write(text: str, unit: str, show: str = "", fits: Fits = anything) -> str:
    """Return how to write what `text` means, as a quantity in `unit`, a key of `KINDS`.

    `show` is the unit in which people are told such a value; only one that `fits` is suggested.
    """
    show = show or shown_unit(unit)
    text = text.replace("\N{NO-BREAK SPACE}", " ").strip()
    several = _several(text, unit, show, fits)
    if several:
        return f"write one of these values: {' or '.join(several)}"
    for way in (_of_groups, _of_comma, _of_share, _of_number):
        told = way(text, unit, show, fits)
        if told:
            return told
    return f"write it like {write_like('…', unit, show)}"


def how_to_list(text: str, unit: str, show: str, fits: Fits) -> list[str]:
    """Return the quantities that `text` holds ("20..100 mm/s"), each quoted; none if unsure."""
    show = show or shown_unit(unit)
    found = split(text)
    bare = found is not None and not found[1]
    one = _quoted(f"{text.strip()} {show}" if bare else text, unit, fits)
    return [one] if one else _several(text, unit, show, fits)


def _several(text: str, unit: str, show: str, fits: Fits) -> list[str]:
    """Return what a text of several numbers and one unit means, each quoted."""
    match = _SEVERAL.fullmatch(text)
    if match is None or text.lower().startswith("0x"):
        return []
    name = spelled(match.group(2)) or show
    meant = _meant(name, unit)
    told = [
        _quoted(f"{number} {meant}", unit, fits)
        for number in re.split(_BETWEEN, match.group(1))
        if meant
    ]
    return told if all(told) else []


def _of_groups(text: str, unit: str, show: str, fits: Fits) -> str:
    """Tell a number in groups of three digits; a single comma may as well be a decimal one."""
    match = _GROUPS.fullmatch(text)
    if match is None or match.group(1).lstrip("+-").startswith("0,"):
        return ""
    number, rest = match.groups()
    whole = re.sub("[ _,'’]", "", number)
    if sum(number.count(mark) for mark in " _,'’") > 1 or "," not in number:
        return _again(f"{whole}{rest}", unit, show, fits)
    name = _meant(spelled(rest) or show, unit)
    both = [_quoted(f"{each} {name}", unit, fits) for each in (whole, number.replace(",", "."))]
    return f"its comma may mean two things: write {both[0]} or {both[1]}" if all(both) else ""


def _of_comma(text: str, unit: str, show: str, fits: Fits) -> str:
    """Tell a decimal comma as a point."""
    match = _COMMA.fullmatch(text)
    if match is None or (len(match.group(2)) == 3 and match.group(1).strip("+-") != "0"):
        return ""
    return _again(f"{match.group(1)}.{match.group(2)}{match.group(3)}", unit, show, fits)


def _of_share(text: str, unit: str, show: str, fits: Fits) -> str:
    """Tell a fraction as a decimal number; a length of which no unit is told is one of an inch."""
    match = _SHARE.fullmatch(text)
    if match is None or int(match.group(3)) == 0:
        return ""
    value = int(match.group(1) or 0) + int(match.group(2)) / int(match.group(3))
    name = match.group(4).strip()
    if unit == "m" and not name:
        inches = _quoted(f"{value:.6g} in", unit, fits)
        return f"if it is of an inch, write it like {inches}" if inches else ""
    return _again(f"{value:.6g}{match.group(4)}", unit, show, fits)


def _again(text: str, unit: str, show: str, fits: Fits) -> str:
    """Tell how to write a text that is plainer than the one before, and may be right."""
    quoted = _quoted(text, unit, fits)
    return f"write it like {quoted}" if quoted else _of_number(text, unit, show, fits)


def _of_number(text: str, unit: str, show: str, fits: Fits) -> str:
    """Tell a number without a unit, or with one that is not of the kind."""
    found = split(text)
    if found is None:
        return ""
    number, name = found
    meant = _meant(name or show, unit)
    if meant:
        quoted = _quoted(f"{number} {meant}", unit, fits)
        return f"write it like {quoted}" if quoted else ""
    if not is_unit(name):
        return ""
    weighed = by_weight(number, name, unit)
    if weighed is not None:
        told = _rounded(weighed, show)
        quoted = _quoted(told, unit, fits)
        words = _BY_WEIGHT.get(unit, "is {} by weight").format(told)
        return f"{number} {name} {words}: write it like {quoted}" if quoted else ""
    quoted = _quoted(f"{number} {show}", unit, fits)
    return f"if it is in {show}, write it like {quoted}" if quoted else ""


def _meant(name: str, unit: str) -> str:
    """Return the unit that `name` means, a key of `KINDS` or of its kind; empty if unsure."""
    for each in (name, _MEANT.get(unit, {}).get(name, ""), *_otherwise(name, unit)):
        if each and _amount(f"1 {each}", unit) is not None:
            return each
    return ""


def _otherwise(name: str, unit: str) -> tuple[str, ...]:
    """Return a unit's other spellings in capitals and small letters, the usual unit first."""
    usual = [each for each in everyday(unit) if each.casefold() == name.casefold()]
    return (*usual, name.lower())


def _quoted(text: str, unit: str, fits: Fits) -> str:
    """Return a text as a quantity to type, quoted and spaced; empty where it is none that fits."""
    value, found = _amount(text, unit), split(text)
    if value is None or found is None or not fits(value):
        return ""
    return f'"{found[0]} {found[1]}"'


def _amount(text: str, unit: str) -> float | None:
    try:
        return amount(text, unit)
    except NotReadError:
        return None


def _rounded(value: float, show: str) -> str:
    """Return an SI value as text in the unit `show`, to four digits and never with an exponent."""
    number = float(format_quantity(value, show, 4).split()[0])
    return f"{number:.12g} {show}" if 1e-4 <= abs(number) < 1e12 else format_quantity(value, show)
