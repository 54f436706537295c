"""`isolator fit`: the fit coupon drawn, its readings taken, checked and stored in the brief."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from isolator.brief import Print, read_brief
from isolator.brief.fit import Fit, absurd, fit_of, letters, of_filament, stored_readings
from isolator.brief.fit_store import store_readings
from isolator.commands.manifest import SHEET, origin_of, write_manifest
from isolator.commands.output import publish
from isolator.commands.undisturbed import undisturbed
from isolator.commands.written import WRITTEN
from isolator.design.coupon import BY_LETTER, HOLE
from isolator.design.filaments import FILAMENTS, family_of
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
    """All readings in a filament that the brief now holds [m], what they tell, how parts of it
    will be printed."""

    filament: str  # that the coupon was printed in
    readings: dict[str, float]
    fit: Fit
    print: Print  # holes and first layer as in this filament
    warnings: tuple[str, ...]  # of the brief, on what follows from the coupon


def draw_coupon(path: Path, out: Path, filament: str | None = None) -> tuple[Path, dict[str, Any]]:
    """Draw the coupon of a brief into `out`/<slug>-fit/; return that folder and the manifest.

    It is for the `filament` that is told, else for that of the rigid parts.

    Raises InputError for a brief at fault or a place that is taken, CannotDraw where the coupon
    does not fit the bed.
    """
    brief = read_brief(path)
    slug, own = f"{brief.slug}-fit", known_filament(filament, brief.print)
    origin = origin_of(brief.name, path)
    _refuse_design(out / slug)
    manifests: list[dict[str, Any]] = []

    def write(fresh: Path) -> None:
        with undisturbed():
            from geometry.coupon.coupon_files import write_coupon
        settings = replace(brief.print.settings, material=own)
        manifest = write_coupon(fresh, settings, brief.name, version())
        text = "\n".join(coupon_text(path, own)) + "\n"
        (fresh / "readings.txt").write_text(text, encoding="utf-8")
        manifests.append(write_manifest(fresh, manifest))

    return publish(out, slug, write, origin).folder, manifests[0]


def take(path: Path, words: Sequence[str], filament: str | None = None) -> Taken:
    """Store the readings typed as `words` ("A=3.21mm") in the brief; return what now follows.

    They are of the `filament` that is told, else of that of the rigid parts. Letters not typed
    keep what the brief says. Raises InputError with every fault, the brief
    untouched then.
    """
    usual = read_brief(path).print
    own, typed = known_filament(filament, usual), read_words(words)
    before = _stored(path, own, usual.material)
    if not any(BY_LETTER[letter].kind == HOLE for letter in {**before, **typed}):
        raise refused(
            COMMAND_LINE,
            READINGS,
            "no hole",
            f"at least one of {letters((HOLE,))}",
            "measure a hole with the callipers' inside jaws",
        )
    lengths = {key: format_quantity(value, "mm") for key, value in typed.items()}
    store_readings(path, lengths, own, usual.material)
    WRITTEN.append(str(path))
    after = read_brief(path)
    readings = _stored(path, own, usual.material)
    keys = ("print.hole_compensation", "print.first_layer_chamfer", "fit.")
    return Taken(
        filament=own,
        readings=readings,
        fit=fit_of(readings),
        print=after.print.of(own),
        warnings=tuple(line for line in after.warnings if line.startswith(keys)),
    )


def _stored(path: Path, filament: str, usual: str) -> dict[str, float]:
    """Return the readings [m] in a filament that a brief holds."""
    return of_filament(stored_readings(path.read_text(encoding="utf-8-sig")), filament, usual)


def known_filament(typed: str | None, own: Print) -> str:
    """Return the family of the filament that is told, else that of the rigid parts.

    Raises InputError for one that no brief can name.
    """
    if typed is None:
        return own.material
    family = family_of(typed.strip())
    if family in FILAMENTS:
        return family
    near = difflib.get_close_matches(family, FILAMENTS, 1)
    advice = f"did you mean {near[0]}?" if near else "take the family that it belongs to"
    raise refused(
        COMMAND_LINE, "--filament", shown(typed), f"one of {', '.join(FILAMENTS)}", advice
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
