"""Single values of a brief: what is wrong with one becomes a fault, and a stand-in is returned."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Literal, TypeVar

from isolator.reading.notes import Notes, shown
from isolator.reading.quantities import QuantityError, parse_quantity
from isolator.reading.suggest import how_to_list, how_to_write
from isolator.reading.units import KINDS, format_quantity, write_like
from isolator.reading.words import bare_number, by_meaning, same_word

Sign = Literal["positive", "not negative", "any"]
Word = TypeVar("Word", bound=str)

MOST_VALUES = 100
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


def read_quantity(
    notes: Notes, key: str, raw: object, unit: str, sign: Sign, show: str = "", listed: bool = False
) -> float:
    """Return a quantity in `unit`, NaN where `raw` is none or of the wrong sign.

    `show` is the unit in which the key is told; a `listed` value may have others beside it.
    """
    kind = KINDS[unit]

    def fits(value: float) -> bool:
        return _wrong(value, unit, sign) is None

    if not isinstance(raw, str):
        advice = how_to_write(_typed(raw), unit, show, fits)
        notes.fault(key, shown(raw), f"{kind} with its unit", advice)
        return math.nan
    try:
        value = parse_quantity(raw, unit, show, fits)
    except QuantityError as error:
        several = _several(raw, unit, sign, show) if listed else []
        advice = f"write each on its own: {', '.join(several)}" if several else error.suggestion
        notes.fault(key, shown(raw), error.wanted, advice)
        return math.nan
    wrong = _wrong(value, unit, sign)
    if wrong is None:
        return value
    notes.fault(key, shown(raw), *wrong)
    return math.nan


def _wrong(value: float, unit: str, sign: Sign) -> tuple[str, str] | None:
    """Return what is wanted instead of `value` and what to do, None where it may be."""
    kind = KINDS[unit]
    least, most, told = ORDINARY.get(unit, (0.0, math.inf, ""))
    if value != 0.0 and not least <= abs(value) <= most:
        return f"{kind} of {told}", "check the value and its unit"
    if sign == "any" or value > 0.0 or (value == 0.0 and sign == "not negative"):
        return None
    wanted = f"{kind} above zero" if sign == "positive" else f"{kind} of zero or more"
    return wanted, "check the value and its sign"


def read_quantities(
    notes: Notes,
    key: str,
    raw: object,
    unit: str,
    lengths: Sequence[int],
    sign: Sign,
    show: str = "",
) -> tuple[float, ...]:
    """Return a list of quantities in `unit`; as many NaN as are wanted where `raw` is no such."""
    if isinstance(raw, list) and len(raw) in lengths:
        listed = lengths[-1] > lengths[0] + 1
        return tuple(
            read_quantity(notes, f"{key}[{index}]", each, unit, sign, show, listed)
            for index, each in enumerate(raw, 1)
        )
    several = _several(raw if isinstance(raw, str) else _typed(raw), unit, sign, show)
    if len(several) in lengths:
        advice = f"write it like [{', '.join(several)}]"
    else:
        advice = f"write it like [{', '.join([write_like('…', unit, show)] * lengths[0])}]"
    notes.fault(key, shown(raw), list_wanted(unit, lengths), advice)
    return (math.nan,) * lengths[0]


def _several(raw: str, unit: str, sign: Sign, show: str) -> list[str]:
    """Return the quantities that one text holds, each quoted; none if unsure."""
    return how_to_list(raw, unit, show, lambda value: _wrong(value, unit, sign) is None)


def _typed(raw: object) -> str:
    """Return a plain number as text, empty for anything else."""
    return str(raw) if _is_finite(raw) else ""


def read_places(
    notes: Notes, key: str, raw: object, ends: tuple[int, int], wanted: str, like: str
) -> tuple[tuple[float, float], ...]:
    """Return places (x, y) [m], as many as lie between two ends; none where `raw` is no such."""
    if not isinstance(raw, list) or not ends[0] <= len(raw) <= ends[1]:
        notes.fault(key, shown(raw), wanted, f"write it like {like}")
        return ()
    rows = [
        read_quantities(notes, f"{key}[{index}]", row, "m", (2,), "any")
        for index, row in enumerate(raw, 1)
    ]
    return tuple((row[0], row[1]) for row in rows)


def list_wanted(unit: str, lengths: Sequence[int]) -> str:
    """Return how a message calls a list of quantities in `unit` of one of some lengths."""
    few = " or ".join(str(length) for length in lengths)
    count = few if len(lengths) <= 3 else f"{lengths[0]} to {lengths[-1]}"
    return f"a list of {count}, each {KINDS[unit]} with its unit"


def number_wanted(within: tuple[float, float], whole: bool) -> str:
    """Return how a message calls a plain number between two ends."""
    kind = "a whole number" if whole else "a plain number"
    return f"{kind} from {within[0]:g} to {within[1]:g}"


def read_number(
    notes: Notes,
    key: str,
    raw: object,
    within: tuple[float, float],
    whole: bool,
    usual: tuple[float, float] | None,
) -> float:
    """Return a plain number within two ends, NaN where `raw` is no such."""
    plain = isinstance(raw, int if whole else (int, float)) and not isinstance(raw, bool)
    if plain and within[0] <= raw <= within[1]:  # type: ignore[operator]
        value = float(raw)  # type: ignore[arg-type]
        if usual is not None:
            warn_unusual(notes, key, value, usual, "")
        return value
    notes.fault(key, shown(raw), number_wanted(within, whole), bare(raw, within, whole))
    return math.nan


def bare(raw: object, within: tuple[float, float], whole: bool) -> str:
    """Return how to write the plain number within two ends that `raw` means."""
    if whole and isinstance(raw, float) and raw.is_integer() and within[0] <= raw <= within[1]:
        return f"write it as {int(raw)}"
    if not isinstance(raw, str):
        return "check the value"
    number = bare_number(re.sub(r"(?<=\d),(?=\d{1,2}(?!\d))", ".", raw), whole)
    if number and "%" in raw and not whole and within[0] <= float(number) / 100 <= within[1]:
        return f"{number} % is {float(number) / 100:g}: write it bare, as {float(number) / 100:g}"
    if number and not (whole and "." in number) and within[0] <= float(number) <= within[1]:
        return f"write it bare, as {number}"
    return "write it bare, without quotes or unit"


def warn_unusual(
    notes: Notes, key: str, value: float, usual: tuple[float, float], show: str
) -> None:
    """Note a doubt where `value` is outside its usual range; `show` is its unit, if any."""
    if math.isnan(value) or usual[0] <= value <= usual[1]:
        return
    told = [format_quantity(x, show) if show else f"{x:g}" for x in (value, *usual)]
    notes.warn(key, f"{told[0]} is outside the usual {told[1]} to {told[2]}; check it")


def read_list(notes: Notes, key: str, raw: object, wanted: str) -> list[object]:
    """Return a list that is neither empty nor endless, an empty one where `raw` is no such."""
    if isinstance(raw, list) and 1 <= len(raw) <= MOST_VALUES:
        return raw
    one = isinstance(raw, str) and raw != ""
    advice = f"write it like [{shown(raw)}]" if one else "leave the key out for its default"
    notes.fault(key, shown(raw), f"a list of 1 to {MOST_VALUES}, each {wanted}", advice)
    return []


def read_word(
    notes: Notes,
    key: str,
    raw: object,
    options: Sequence[Word],
    meanings: Mapping[str, str] | None = None,
    otherwise: str = "write one of these words, in quotes",
) -> Word:
    """Return one of the words in `options`, the first where `raw` is none of them.

    A message puts first what comes nearest by `meanings`; `otherwise` is what to do besides.
    """
    for option in options:
        if raw == option:
            return option
    typed = raw if isinstance(raw, str) else ""
    slip = same_word(typed, options)
    meant = by_meaning(typed, options, meanings or {}) if typed and not slip else ""
    advice = otherwise
    if slip:
        advice = f'did you mean "{slip}"?'
    elif meant:
        advice = f"{meant} comes nearest; {otherwise}"
    listed = sorted(options, key=lambda each: each != meant)
    notes.fault(key, shown(raw), f"one of {', '.join(listed)}", advice)
    return options[0]


def text_wanted(most: int = 80) -> str:
    """Return how a message calls a text of at most `most` characters."""
    return f"a text of 1 to {most} characters on one line"


def read_text(notes: Notes, key: str, raw: object, most: int = 80) -> str:
    """Return a printable text of one line, empty where `raw` is no such."""
    if isinstance(raw, str) and raw.strip() and len(raw) <= most and raw.isprintable():
        return raw.strip()
    notes.fault(key, shown(raw), text_wanted(most), 'write it like "front left"')
    return ""


def read_path(notes: Notes, key: str, raw: object, folder: bool) -> Path:
    """Return the path of a file or folder written relative to the file that is read."""
    text = read_text(notes, key, raw, most=300)
    path = Path(notes.file).parent / text
    try:
        there = path.is_dir() if folder else path.is_file()
    except OSError:  # a name too long, a folder that may not be entered
        there = False
    if text and not there:
        notes.fault(
            key,
            f'"{text}"',
            "a folder that is there" if folder else "a file that is there",
            "write it relative to the brief's own folder",
        )
    return path


def _is_finite(raw: object) -> bool:
    if isinstance(raw, bool) or not isinstance(raw, (int, float)):
        return False
    return abs(raw) < 1e15
