"""Keys for numbers and quantities; NaN is read where what was typed is wrong."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, Literal, Unpack, cast

from isolator.reading.keys import Key, More
from isolator.reading.notes import Notes, shown
from isolator.reading.units import (
    KINDS,
    QuantityError,
    format_quantity,
    parse_quantity,
    shown_unit,
    write_like,
)

Sign = Literal["positive", "not negative", "any"]
Range = tuple[float, float]
Pair = tuple[float, float]
Triple = tuple[float, float, float]

ORDINARY = {
    "m": (0.0, 1e2, "no more than 100 m"),
    "m/s": (1e-6, 1e2, "0.001 mm/s to 100 m/s"),
    "N/m": (0.0, 1e9, "no more than 1000000 N/mm"),
    "N*m": (1e-6, 1e6, "0.000001 N*m to 1000000 N*m"),
    "kg/m": (1e-5, 1e2, "0.01 g/m to 100 kg/m"),
    "m^2": (1e-6, 1e2, "0.01 cm^2 to 100 m^2"),
    "rad": (0.0, math.tau * (1 + 1e-12), "no more than 360 deg"),
    "A": (1e-3, 1e3, "0.001 A to 1000 A"),
    "V": (1e-1, 1e3, "0.1 V to 1000 V"),
    "ohm": (1e-4, 1e4, "0.0001 ohm to 10000 ohm"),
    "H": (1e-7, 1e1, "0.0001 mH to 10 H"),
}
"""How large a value above or below zero may be, by unit: wide enough for any printer, and near
enough together that a stiff belt does not drown a weak motor in rounding (singular matrices)."""


def quantity(
    unit: str,
    *default: Any,
    sign: Sign = "positive",
    usual: Range | None = None,
    show: str = "",
    **more: Unpack[More],
) -> Key[float]:
    """Return a key for a quantity in `unit`; `show` is the unit in which it is told.

    `usual` is a range outside which a doubt is noted, for this and other numbers.
    """
    told = show or shown_unit(unit)

    def read(notes: Notes, path: str, raw: Any) -> float:
        value = _read_quantity(notes, path, raw, unit, sign)
        warn_unusual(notes, path, value, usual, told)
        return value

    return Key(
        read=read,
        wanted=f"{KINDS[unit]} with its unit",
        like=write_like("…", unit),
        write=lambda value, digits: format_quantity(value, told, digits),
        default=default,
        **more,
    )


def _read_quantity(notes: Notes, path: str, raw: Any, unit: str, sign: Sign) -> float:
    kind = KINDS[unit]
    if not isinstance(raw, str):
        plain = isinstance(raw, (int, float)) and not isinstance(raw, bool) and abs(raw) < 1e15
        advice = f"write it like {write_like(shown(raw) if plain else '1', unit)}"
        notes.fault(path, shown(raw), f"{kind} with its unit", advice)
        return math.nan
    try:
        value = parse_quantity(raw, unit)
    except QuantityError as error:
        notes.fault(path, shown(raw), error.wanted, error.suggestion)
        return math.nan
    least, most, told = ORDINARY.get(unit, (0.0, math.inf, ""))
    if value != 0.0 and not least <= abs(value) <= most:
        notes.fault(path, shown(raw), f"{kind} of {told}", "check the value and its unit")
        return math.nan
    if sign == "any" or value > 0.0 or (value == 0.0 and sign == "not negative"):
        return value
    wanted = f"{kind} above zero" if sign == "positive" else f"{kind} of zero or more"
    notes.fault(path, shown(raw), wanted, "check the value and its sign")
    return math.nan


def warn_unusual(notes: Notes, path: str, value: float, usual: Range | None, show: str) -> None:
    """Note a doubt where `value` is outside its usual range; `show` is its unit, if any."""
    if usual is None or math.isnan(value) or usual[0] <= value <= usual[1]:
        return
    told = [format_quantity(x, show) if show else f"{x:g}" for x in (value, *usual)]
    notes.warn(path, f"{told[0]} is outside the usual {told[1]} to {told[2]}; check it")


def quantities(
    unit: str,
    lengths: Sequence[int],
    *default: Any,
    sign: Sign = "positive",
    usual: Range | None = None,
    **more: Unpack[More],
) -> Key[tuple[float, ...]]:
    """Return a key for a list of quantities in `unit`; its length must be one of `lengths`."""
    told, one = shown_unit(unit), quantity(unit, sign=sign)
    few = " or ".join(str(length) for length in lengths)
    count = few if len(lengths) <= 3 else f"{lengths[0]} to {lengths[-1]}"
    wanted = f"a list of {count}, each {one.wanted}"
    example = ", ".join(write_like(str(10 * n), unit) for n in range(1, lengths[0] + 1))
    stand_in = (math.nan,) * lengths[0]

    def read(notes: Notes, path: str, raw: Any) -> tuple[float, ...]:
        if not (isinstance(raw, list) and len(raw) in lengths):
            notes.fault(path, shown(raw), wanted, f"write it like [{example}]")
            return stand_in
        values = one.each(notes, path, raw)
        for value in values:
            warn_unusual(notes, path, value, usual, told)
        return values

    return Key(
        read=read,
        wanted=wanted,
        like=f"[{', '.join([one.like] * lengths[0])}]",
        stand_in=stand_in,
        write=lambda values, digits: [one.write(each, digits) for each in values],
        default=default,
        **more,
    )


def pair(unit: str, *default: Any, sign: Sign = "positive", **more: Unpack[More]) -> Key[Pair]:
    """Return a key for two quantities, along x and y or from one to the other."""
    return cast("Key[Pair]", quantities(unit, (2,), *default, sign=sign, **more))


def triple(
    unit: str, *default: Any, sign: Sign = "any", usual: Range | None = None, **more: Unpack[More]
) -> Key[Triple]:
    """Return a key for three quantities, along x, y and z."""
    return cast("Key[Triple]", quantities(unit, (3,), *default, sign=sign, usual=usual, **more))


def places(
    least: int,
    most: int,
    *default: Any,
    wanted: str = "",
    like: str = '[["180 mm", "190 mm"]]',
    **more: Unpack[More],
) -> Key[tuple[Pair, ...]]:
    """Return a key for a list of places (x, y) [m]."""
    wanted, advice = wanted or f"a list of {least} to {most} places", f"write it like {like}"
    place = pair("m", sign="any")

    def read(notes: Notes, path: str, raw: Any) -> tuple[Pair, ...]:
        if isinstance(raw, list) and least <= len(raw) <= most:
            return place.each(notes, path, raw)
        notes.fault(path, shown(raw), wanted, advice)
        return ()

    return Key(
        read=read,
        wanted=wanted,
        advice=advice,
        stand_in=(),
        write=lambda rows, digits: [place.write(row, digits) for row in rows],
        default=default,
        **more,
    )


def number(
    within: Range, *default: Any, usual: Range | None = None, **more: Unpack[More]
) -> Key[float]:
    """Return a key for a plain number `within` two ends."""
    wanted = f"a plain number from {within[0]:g} to {within[1]:g}"
    return Key(
        read=lambda notes, path, raw: _read_plain(notes, path, raw, within, wanted, usual),
        wanted=wanted,
        write=lambda value, digits: int(value) if value == int(value) else value,
        default=default,
        **more,
    )


def integer(
    within: tuple[int, int], *default: Any, usual: Range | None = None, **more: Unpack[More]
) -> Key[int]:
    """Return a key for a whole number `within` two ends."""
    wanted, least = f"a whole number from {within[0]:g} to {within[1]:g}", within[0]

    def read(notes: Notes, path: str, raw: Any) -> int:
        value = _read_plain(notes, path, raw, within, wanted, usual, kinds=int)
        return least if math.isnan(value) else int(value)

    return Key(read=read, wanted=wanted, stand_in=least, default=default, **more)


def _read_plain(
    notes: Notes,
    path: str,
    raw: Any,
    within: Range,
    wanted: str,
    usual: Range | None,
    *,
    kinds: Any = (int, float),
) -> float:
    if isinstance(raw, kinds) and not isinstance(raw, bool) and within[0] <= raw <= within[1]:
        warn_unusual(notes, path, float(raw), usual, "")
        return float(raw)
    advice = "write it bare, without quotes or unit" if isinstance(raw, str) else "check the value"
    notes.fault(path, shown(raw), wanted, advice)
    return math.nan


def vector(within: Range, *default: Any, **more: Unpack[More]) -> Key[Triple]:
    """Return a key for three plain numbers `within` two ends, along x, y and z."""
    one = number(within)
    wanted, nothing = f"a list of 3, each {one.wanted}", (math.nan, math.nan, math.nan)

    def read(notes: Notes, path: str, raw: Any) -> Triple:
        if isinstance(raw, list) and len(raw) == 3:
            return cast(Triple, one.each(notes, path, raw))
        notes.fault(path, shown(raw), wanted, "write it like [1, 0, 0]")
        return nothing

    return Key(
        read=read,
        wanted=wanted,
        like="[…, …, …]",
        stand_in=nothing,
        write=lambda value, digits: list(value),
        default=default,
        **more,
    )
