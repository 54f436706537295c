"""The drawing sheet as a file: design.toml, read strictly; `write_design` is its other half."""

from __future__ import annotations

import difflib
import re
from pathlib import Path

from isolator.design import Design, FilamentFit, PrintSettings
from isolator.design.read_feet import read_foot, read_slab
from isolator.design.read_motors import read_damper, read_spacer
from isolator.design.sheet import DesignTable
from isolator.reading.faults import InputError, refused
from isolator.reading.files import UnreadableError, parse_toml, read_file
from isolator.reading.notes import Notes, shown, shown_key
from isolator.reading.printable import printable

LARGEST_FILE = 1_000_000  # [bytes]
_ADVICE = {
    "special": "save it as a plain file",
    "bytes": "save it as UTF-8 text",
    "toml": "mend that line",
    "twice": "put the keys of both under one heading",
    "deep": "remove them",
    "digits": "shorten it",
}
_DESIGN_IT = "run `isolator design` on it; that writes the design.toml that can be drawn"
_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def read_design(path: Path | str) -> Design:
    """Return the design in the file at `path`.

    Raises InputError with every fault found: of the file itself, of an unknown or missing key, of
    a value that is no length, negative, not a number, or that contradicts another.
    """
    notes = Notes(printable(str(path)))
    whole = _load(Path(path), notes.file)
    if "slug" not in whole and {"printer", "motion"} & set(whole):
        raise refused(notes.file, "", "a brief", "a design", _DESIGN_IT)
    root = DesignTable(notes, "", whole)
    root.check("name")
    slug = _read_slug(root)
    root.check("version")
    design = root.record(
        Design,
        slug=slug,
        print=root.print.record(
            PrintSettings, fits=tuple(each.whole(FilamentFit) for each in root.print.fit)
        ),
        feet=tuple(read_foot(table) for table in root.foot),
        slab=read_slab(root.slab) if root.has("slab") else None,
        motor_spacers=tuple(read_spacer(table) for table in root.motor_spacer),
        motor_dampers=tuple(read_damper(table) for table in root.motor_damper),
    )
    root.print.done()
    _judge_names(notes, design)
    _refuse_unknown(root, whole)
    if notes.faults:
        raise InputError(notes.faults)
    return design


def is_design(path: Path) -> bool:
    """Return whether the file at `path` looks like a design.toml: it names its folder, and no
    brief does. False where there is no such file."""
    try:
        with path.open("rb") as stream:
            return re.search(rb"(?m)^slug *= *\"", stream.read(LARGEST_FILE)) is not None
    except (OSError, ValueError):  # no file, a null byte in the path
        return False


def _load(path: Path, file: str) -> dict[str, object]:
    try:
        return parse_toml(read_file(path, LARGEST_FILE))
    except UnreadableError as error:
        advice = _ADVICE.get(error.kind, "name a design.toml that this program wrote")
        raise refused(file, "", error.got, "a design", advice) from None


def _read_slug(root: DesignTable) -> str:
    slug = root.slug
    if slug and _SLUG.fullmatch(slug) is None:
        root.fault(
            "slug",
            shown(slug),
            "lower-case letters, digits and single hyphens",
            "it names the folder of the output",
        )
    return slug


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


def _refuse_unknown(root: DesignTable, whole: dict[str, object]) -> None:
    known = tuple(root.declared())
    for key in [key for key in whole if key not in known]:
        near = difflib.get_close_matches(key[:40], known, n=1)
        advice = f"did you mean {near[0]}?" if near else f"it knows {', '.join(known)}"
        root.notes.fault(shown_key(key), "an unknown key", "a key of the design", advice)
