"""Keys for numbers and quantities; NaN is read where what was typed is wrong."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from typing import Any, Unpack, cast

from isolator.reading.keys import Key, More
from isolator.reading.notes import Notes, shown
from isolator.reading.ordinary import Sign, wrong
from isolator.reading.quantities import QuantityError, parse_quantity
from isolator.reading.suggest import how_to_list, how_to_write
from isolator.reading.units import KINDS, format_quantity, shown_unit, write_like
from isolator.reading.words import bare

CHECK = "check the value and its unit"
Range = tuple[float, float]
Pair = tuple[float, float]
Triple = tuple[float, float, float]


def quantity(
    unit: str,
    *default: Any,
    sign: Sign = "positive",
    usual: Range | None = None,
    within: Range | None = None,
    show: str = "",
    **more: Unpack[More],
) -> Key[float]:
    """Return a key for a quantity in `unit`; `show` is the unit in which it is told.

    `usual` is a range outside which a doubt is noted, for this and other numbers; what is not
    `within` two ends is refused.
    """
    told = show or shown_unit(unit)

    def read(notes: Notes, path: str, raw: Any) -> float:
        value = _read_quantity(notes, path, raw, unit, sign, told)
        if within is not None and math.isnan(value):
            _hold_suggestion(notes, unit, within)
        elif within is not None and not within[0] <= value <= within[1]:
            ends = " to ".join(format_quantity(each, told) for each in within)
            notes.fault(path, shown(raw), f"{KINDS[unit]} of {ends}", CHECK)
            return math.nan
        warn_unusual(notes, path, value, usual, told)
        return value

    return Key(
        read=read,
        wanted=f"{KINDS[unit]} with its unit",
        like=write_like("…", unit, told),
        write=lambda value, digits: format_quantity(value, told, digits),
        default=default,
        **more,
    )


def _hold_suggestion(notes: Notes, unit: str, within: Range) -> None:
    """Suggest no quantity in the last fault that would be refused in its turn."""
    last = notes.faults[-1]
    for text in re.findall(r'"([^"]*)"', last.suggestion):
        with suppress(QuantityError):
            if not within[0] <= parse_quantity(text, unit) <= within[1]:
                notes.faults[-1] = replace(last, suggestion=CHECK)


def _read_quantity(
    notes: Notes,
    path: str,
    raw: object,
    unit: str,
    sign: Sign,
    show: str = "",
    listed: bool = False,
) -> float:
    """Return a quantity in `unit`, NaN where `raw` is none or of the wrong sign.

    `show` is the unit in which the key is told; a `listed` value may have others beside it.
    """
    kind = KINDS[unit]

    def fits(value: float) -> bool:
        return wrong(value, unit, sign) is None

    if not isinstance(raw, str):
        advice = how_to_write(_typed(raw), unit, show, fits)
        notes.fault(path, shown(raw), f"{kind} with its unit", advice)
        return math.nan
    try:
        value = parse_quantity(raw, unit, show, fits)
    except QuantityError as error:
        several = _several(raw, unit, sign, show) if listed else []
        advice = (
            f"write each on its own: {', '.join(several)}" if len(several) > 1 else error.suggestion
        )
        notes.fault(path, shown(raw), error.wanted, advice)
        return math.nan
    fault = wrong(value, unit, sign)
    if fault is None:
        return value
    notes.fault(path, shown(raw), *fault)
    return math.nan


def _several(raw: str, unit: str, sign: Sign, show: str) -> list[str]:
    """Return the quantities that one text holds, each quoted; none if unsure."""
    return how_to_list(raw, unit, show, lambda value: wrong(value, unit, sign) is None)


def _typed(raw: object) -> str:
    """Return a plain number as text, empty for anything else."""
    return str(raw) if _is_finite(raw) else ""


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
    names: str = "",
    **more: Unpack[More],
) -> Key[tuple[float, ...]]:
    """Return a key for a list of quantities in `unit`; its length must be one of `lengths`.

    `names` says what stands in it, in order.
    """
    told, one = shown_unit(unit), quantity(unit, sign=sign)
    few = " or ".join(str(length) for length in lengths)
    count = few if len(lengths) <= 3 else f"{lengths[0]} to {lengths[-1]}"
    wanted = f"a list of {count}{f' ({names})' if names else ''}, each {one.wanted}"
    listed = lengths[-1] > lengths[0] + 1
    like = f"[{', '.join([one.like] * lengths[0])}]"
    stand_in = (math.nan,) * lengths[0]

    def read(notes: Notes, path: str, raw: Any) -> tuple[float, ...]:
        if not (isinstance(raw, list) and len(raw) in lengths):
            several = _several(raw if isinstance(raw, str) else _typed(raw), unit, sign, told)
            meant = f"[{', '.join(several)}]" if len(several) in lengths else like
            notes.fault(path, shown(raw), wanted, f"write it like {meant}")
            return stand_in
        values = tuple(
            _read_quantity(notes, f"{path}[{n}]", each, unit, sign, told, listed)
            for n, each in enumerate(raw, 1)
        )
        for value in values:
            warn_unusual(notes, path, value, usual, told)
        return values

    return Key(
        read=read,
        wanted=wanted,
        like=like,
        stand_in=stand_in,
        write=lambda values, digits: [one.write(each, digits) for each in values],
        default=default,
        **more,
    )


def pair(unit: str, *default: Any, sign: Sign = "positive", **more: Unpack[More]) -> Key[Pair]:
    """Return a key for two quantities, along x and y or from one to the other."""
    return cast("Key[Pair]", quantities(unit, (2,), *default, sign=sign, **more))


def triple(
    unit: str,
    *default: Any,
    sign: Sign = "any",
    usual: Range | None = None,
    names: str = "along x, y and z",
    **more: Unpack[More],
) -> Key[Triple]:
    """Return a key for three quantities; `names` says of what."""
    read = quantities(unit, (3,), *default, sign=sign, usual=usual, names=names, **more)
    return cast("Key[Triple]", read)


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


def one_of(
    numbers: tuple[int, ...], otherwise: str, *default: Any, **more: Unpack[More]
) -> Key[int]:
    """Return a key for one of a few whole numbers; `otherwise` is what to do with another."""
    wanted = f"{', '.join(map(str, numbers[:-1]))} or {numbers[-1]}"

    def read(notes: Notes, path: str, raw: Any) -> int:
        if type(raw) is int and raw in numbers:
            return raw
        advice = bare(raw, (numbers[0], numbers[-1]), True)
        meant = advice.rsplit(" ", 1)[-1] in map(str, numbers)
        notes.fault(path, shown(raw), wanted, advice if meant else otherwise)
        return numbers[0]

    return Key(read=read, wanted=wanted, stand_in=numbers[0], default=default, **more)


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
    notes.fault(path, shown(raw), wanted, bare(raw, within, kinds is int))
    return math.nan


def vector(within: Range, *default: Any, **more: Unpack[More]) -> Key[Triple]:
    """Return a key for three plain numbers `within` two ends, along x, y and z."""
    one = number(within)
    wanted, nothing = f"a list of 3, each {one.wanted}", (math.nan, math.nan, math.nan)

    def read(notes: Notes, path: str, raw: Any) -> Triple:
        if isinstance(raw, list) and len(raw) == 3:
            return cast(Triple, one.each(notes, path, raw))
        notes.fault(path, shown(raw), wanted, "write it like […, …, …]")
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


def _is_finite(raw: object) -> bool:
    if isinstance(raw, bool) or not isinstance(raw, (int, float)):
        return False
    return abs(raw) < 1e15
