"""`isolator fit`: the fit coupon drawn, its readings taken, checked and stored in the brief."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from isolator.brief import Print, read_brief
from isolator.brief.fit import Fit, absurd, fit_of, letters, stored_readings
from isolator.brief.fit_store import store_readings
from isolator.commands.manifest import SHEET, origin_of, write_manifest
from isolator.commands.output import publish
from isolator.commands.write_parts import undisturbed
from isolator.commands.written import WRITTEN
from isolator.design.coupon import BY_LETTER, HOLE
from isolator.design.version import version
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import InputError, refused
from isolator.reading.notes import Notes, shown
from isolator.reading.quantities import QuantityError, parse_quantity
from isolator.reading.units import format_quantity
from isolator.report.sentences.fit_text import coupon_text

LIKE = "write it like A=3.21mm"
READINGS = "READINGS"


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """All readings the brief now holds [m], what they tell, and how parts will be printed."""

    readings: dict[str, float]
    fit: Fit
    print: Print
    warnings: tuple[str, ...]  # of the brief, on what follows from the coupon


def draw_coupon(path: Path, out: Path) -> tuple[Path, dict[str, Any]]:
    """Draw the coupon of a brief into `out`/<slug>-fit/; return that folder and the manifest.

    Raises InputError for a brief at fault or a place that is taken, CannotDraw where the coupon
    does not fit the bed.
    """
    brief = read_brief(path)
    slug = f"{brief.slug}-fit"
    origin = origin_of(brief.name, path)
    _refuse_design(out / slug)
    manifests: list[dict[str, Any]] = []

    def write(fresh: Path) -> None:
        with undisturbed():
            from geometry.coupon.coupon_files import write_coupon
        manifest = write_coupon(fresh, brief.print.settings, brief.name, version())
        text = "\n".join(coupon_text(path)) + "\n"
        (fresh / "readings.txt").write_text(text, encoding="utf-8")
        manifests.append(write_manifest(fresh, manifest))

    return publish(out, slug, write, origin).folder, manifests[0]


def take(path: Path, words: Sequence[str]) -> Taken:
    """Store the readings typed as `words` ("A=3.21mm") in the brief; return what now follows.

    Letters not typed keep what the brief says. Raises InputError with every fault, the brief
    untouched then.
    """
    read_brief(path)
    typed = read_words(words)
    before = stored_readings(path.read_text(encoding="utf-8-sig"))
    if not any(BY_LETTER[letter].kind == HOLE for letter in {**before, **typed}):
        raise refused(
            COMMAND_LINE,
            READINGS,
            "no hole",
            f"at least one of {letters((HOLE,))}",
            "measure a hole with the callipers' inside jaws",
        )
    store_readings(path, {key: format_quantity(value, "mm") for key, value in typed.items()})
    WRITTEN.append(str(path))
    after = read_brief(path)
    readings = stored_readings(path.read_text(encoding="utf-8-sig"))
    keys = ("print.hole_compensation", "print.first_layer_chamfer")
    return Taken(
        readings=readings,
        fit=fit_of(readings),
        print=after.print,
        warnings=tuple(line for line in after.warnings if line.startswith(keys)),
    )


def read_words(words: Sequence[str]) -> dict[str, float]:
    """Return readings typed on the command line [m], in the order of the coupon's letters.

    Raises InputError with every fault: no such letter, one typed twice, no length, absurd.
    """
    notes = Notes(COMMAND_LINE)
    found: dict[str, float] = {}
    for word in words:
        name, equals, text = word.partition("=")
        letter = name.strip().upper()
        if not equals:
            notes.fault(READINGS, shown(word), 'a letter, "=" and a length', LIKE)
        elif letter not in BY_LETTER:
            known = letters(tuple(each.kind for each in BY_LETTER.values()))
            notes.fault(READINGS, shown(name), "a letter of the coupon", f"it has {known}")
        elif letter in found:
            notes.fault(letter, "two readings", "one", "type the mean of both")
        else:
            found[letter] = _length(letter, text, notes)
    if notes.faults:
        raise InputError(notes.faults)
    return {letter: found[letter] for letter in BY_LETTER if letter in found}


def _length(letter: str, text: str, notes: Notes) -> float:
    try:
        value = parse_quantity(text, "m")
    except QuantityError as error:
        notes.fault(letter, shown(text.strip()), error.wanted, error.suggestion)
        return 0.0
    wrong = absurd(letter, value)
    if wrong is not None:
        notes.fault(letter, *wrong)
    return value


def _refuse_design(folder: Path) -> None:
    """Refuse to put a coupon in the place of the design of a printer of such a name."""
    if (folder / SHEET).exists():
        raise refused(
            str(folder),
            "",
            "the design of another printer",
            "a place of its own for the coupon",
            "move it away, rename the brief, or choose another --out",
        )
