"""The drawing sheet as a file: design.toml, read strictly; `write_design` is its other half."""

from __future__ import annotations

import difflib
import re
import tomllib
from pathlib import Path

from isolator.brief.notes import Notes, printable, shown, shown_key
from isolator.brief.section import Section
from isolator.brief.values import read_quantities
from isolator.design import (
    ATTACHMENTS,
    SHAPES,
    Design,
    Foot,
    Pad,
    PrintSettings,
)
from isolator.design_motors import judge_below, read_damper, read_spacer
from isolator.design_text import KINDS, write_design
from isolator.faults import Fault, InputError

__all__ = ["read_design", "write_design"]

MOST_PLACES = 100
_KEYS = (
    "name", "slug", "version", "frame_size", "print", "foot", "motor_spacer", "motor_damper",
)  # fmt: skip
LARGEST_FILE = 1_000_000  # [bytes]
_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def read_design(path: Path | str) -> Design:
    """Return the design in the file at `path`.

    Raises InputError with every fault found: of the file itself, of an unknown or missing key, of
    a value that is no length, negative, not a number, or that contradicts another.
    """
    notes = Notes(printable(str(path)))
    whole = _load(Path(path), notes.file)
    root = Section(notes, "", whole)
    sheet = root.section("print")
    design = Design(
        name=root.text("name"),
        slug=_read_slug(root),
        version=root.text("version"),
        print=PrintSettings(
            bed=sheet.triple("bed", "m", sign="positive"),
            nozzle=sheet.quantity("nozzle", "m"),
            layer=sheet.quantity("layer", "m"),
            hole_compensation=sheet.quantity("hole_compensation", "m", sign="not negative"),
            first_layer_chamfer=sheet.quantity("first_layer_chamfer", "m", sign="not negative"),
            material=sheet.text("material"),
        ),
        feet=tuple(_read_foot(table) for table in root.sections("foot")),
        motor_spacers=tuple(read_spacer(table) for table in root.sections("motor_spacer")),
        motor_dampers=tuple(read_damper(table) for table in root.sections("motor_damper")),
        frame_size=root.triple("frame_size", "m", sign="positive"),
    )
    sheet.done()
    _judge_names(notes, design)
    _refuse_unknown(notes, whole)
    if notes.faults:
        raise InputError(notes.faults)
    return design


def _load(path: Path, file: str) -> dict[str, object]:
    got, advice = "", "name a design.toml that this program wrote"
    try:
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_FILE + 1)
        if len(raw) <= LARGEST_FILE:
            return tomllib.loads(raw.decode("utf-8-sig"))
        got = "more than 1 MB"
    except FileNotFoundError:
        got = "no such file"
    except IsADirectoryError:
        got = "a folder"
    except OSError as error:
        got = (error.strerror or "no path").lower()
    except UnicodeDecodeError:
        got, advice = "bytes that are no text", "save it as UTF-8 text"
    except tomllib.TOMLDecodeError as error:
        got, advice = f"a line that is no TOML: {printable(str(error))}", "mend that line"
    except RecursionError:
        got, advice = "brackets nested too deep", "remove them"
    except ValueError as error:  # a null byte in the path, a number of thousands of digits
        got = printable(str(error))[:60]
    raise InputError([Fault(file=file, key="", got=got, wanted="a design", suggestion=advice)])


def _read_slug(root: Section) -> str:
    slug = root.text("slug", most=60)
    if slug and _SLUG.fullmatch(slug) is None:
        root.notes.fault(
            "slug",
            shown(slug),
            "lower-case letters, digits and single hyphens",
            "it names the folder of the output",
        )
    return slug


def _read_foot(table: Section) -> Foot:
    kind = table.choice("kind", KINDS)
    pad = _read_pad(table.section("pad"), printed=kind == "printed")
    foot = Foot(
        name=table.text("name"),
        kind=kind,
        pad=pad,
        positions=_read_places(table),
        attachment=table.choice("attachment", ATTACHMENTS),
        bolt=table.quantity("bolt", "m", sign="not negative"),
        tube=table.quantity("tube", "m", sign="not negative"),
        cap=table.quantity("cap", "m"),
        sole=table.quantity("sole", "m"),
        wall=table.quantity("wall", "m", sign="not negative"),
        side_room=table.quantity("side_room", "m", sign="not negative"),
        sag=table.quantity("sag", "m", sign="not negative"),
        stop=table.quantity("stop", "m", sign="not negative"),
    )
    table.done()
    if foot.kind == "cup":
        judge_below(table, "stop", foot.stop, "pad.thickness", pad.thickness)
    return foot


def _read_pad(table: Section, printed: bool) -> Pad:
    shape = table.choice("shape", SHAPES)
    pad = Pad(
        shape=shape,
        first=table.quantity("first", "m"),
        second=table.quantity(
            "second", "m", sign="not negative" if shape == "disc" else "positive"
        ),
        thickness=table.quantity("thickness", "m"),
        layers=table.integer("layers", None, within=(1, 50)),
        material=table.text("material"),
        printed=printed,
    )
    table.done()
    if shape in ("ring", "square-with-hole"):
        judge_below(table, "second", pad.second, "first", pad.first)
    return pad


def _read_places(table: Section) -> tuple[tuple[float, float], ...]:
    key = table.path("positions")
    raw = table.raw("positions") if table.has("positions") else []
    if not isinstance(raw, list) or not 1 <= len(raw) <= MOST_PLACES:
        table.notes.fault(
            key,
            shown(raw) if raw else "nothing",
            f"a list of 1 to {MOST_PLACES} places",
            'write it like [["180 mm", "190 mm"]]',
        )
        return ()
    rows = [
        read_quantities(table.notes, f"{key}[{index}]", row, "m", (2,), "any")
        for index, row in enumerate(raw, 1)
    ]
    return tuple((row[0], row[1]) for row in rows)


def _judge_names(notes: Notes, design: Design) -> None:
    """Refuse names that come twice: one among feet, one motor among spacers and dampers."""
    feet = [(f"foot[{n}]", foot.name) for n, foot in enumerate(design.feet, 1)]
    motors = [
        *((f"motor_spacer[{n}]", each.name) for n, each in enumerate(design.motor_spacers, 1)),
        *((f"motor_damper[{n}]", each.name) for n, each in enumerate(design.motor_dampers, 1)),
    ]
    for named in (feet, motors):
        names = [name for _, name in named]
        for index, (key, name) in enumerate(named):
            if name and name in names[:index]:
                notes.fault(f"{key}.name", shown(name), "a name of its own", "rename one")


def _refuse_unknown(notes: Notes, whole: dict[str, object]) -> None:
    for key in [key for key in whole if key not in _KEYS]:
        near = difflib.get_close_matches(key[:40], _KEYS, n=1)
        advice = f"did you mean {near[0]}?" if near else f"it knows {', '.join(_KEYS)}"
        notes.fault(shown_key(key), "an unknown key", "a key of the design", advice)
