"""Reading a brief: from a file, or from its text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import tomlkit

from isolator.brief.brief import Brief, BriefTable
from isolator.brief.damper_stock import read_damper
from isolator.brief.desk import judge_desk, read_desk
from isolator.brief.driver import read_driver
from isolator.brief.fans_and_loads import read_fans, read_loads
from isolator.brief.feet import Feet
from isolator.brief.frame import read_frame
from isolator.brief.limits import Limits, read_limits, read_room
from isolator.brief.motion import Motion, read_motion
from isolator.brief.noise import read_noise
from isolator.brief.places import all_places
from isolator.brief.printer import Printer, read_printer
from isolator.brief.printing import read_print
from isolator.brief.read_feet import read_feet
from isolator.brief.read_motor import read_motors
from isolator.brief.slab import Slab, judge_slab, read_slab
from isolator.brief.standing import judge_standing
from isolator.brief.stock import Stock, read_stock
from isolator.brief.weights import weighed
from isolator.design.attachment import UNDER_SLAB, no_room_for_mounts
from isolator.design.naming import folder_name
from isolator.reading.changes import Change, changed, faults_of
from isolator.reading.faults import InputError, refused
from isolator.reading.files import UnreadableError, parse_toml, read_file
from isolator.reading.notes import Notes
from isolator.reading.printable import printable
from isolator.reading.units import format_quantity

LARGEST_FILE = 200_000
"""Bytes; the longest sensible brief has a tenth of that."""
FRAME_OVER_BED = 10.0
"""No frame is larger than so many beds."""
_DRAW_IT = "name the brief that it was made from; a design.toml is drawn by `isolator draw`"
_WANTED = {
    "missing": ("a brief", "check the path, or write a starter with `isolator start FILE`"),
    "folder": ("a brief", "name the file inside it"),
    "special": ("a brief in a plain file", "save it as one"),
    "system": ("a file that can be read", "check it"),
    "large": ("a brief", "is this the right file?"),
    "bytes": ("text in UTF-8", "save it as UTF-8 text"),
    "dots": ("a brief", "is this the right file?"),
    "toml": (
        "TOML",
        'quantities and texts stand in quotes ("18 mm"), plain numbers bare (17), names of tables '
        "in [brackets]",
    ),
    "twice": (
        "each table begun once",
        "a table is begun by its first dotted key (printer.mass = ...) or by its heading "
        "([printer]), not by both: write all its keys with dots, before the first heading, or all "
        "without under one heading",
    ),
    "deep": ("TOML", "remove them"),
    "digits": ("TOML", "shorten it"),
}


def read_brief(path: Path | str, changes: Sequence[Change] = ()) -> Brief:
    """Return the brief in the file at `path`, with `changes` of the command line.

    Raises InputError with every fault: of the file itself (missing, a folder, too large, not
    text) or of what it says.
    """
    return read_brief_text(_text_of(path), str(path), changes)


def read_brief_text(text: str, file: str, changes: Sequence[Change] = ()) -> Brief:
    """Return the brief in `text`; `file` is what faults call it and where its paths start.

    Raises InputError with every fault found.
    """
    notes = Notes(file)
    before = _parse(text, printable(file))
    if "slug" in before and "printer" not in before:
        raise refused(printable(file), "", "a design", "a brief", _DRAW_IT)
    brief = _read(BriefTable(notes, "", changed(before, changes)), notes)
    if notes.faults:
        raise InputError(faults_of(notes.faults, before, changes))
    told = (*(change.told for change in changes), *brief.warnings)
    return replace(brief, warnings=told) if changes else brief


def brief_source(path: Path, changes: Sequence[Change]) -> bytes:
    """Return a file that reads as the brief at `path` does with `changes`; without, the file."""
    if not changes:
        return path.read_bytes()
    table = changed(_parse(_text_of(path), printable(str(path))), changes)
    head = "".join(f"# {change.told}\n" for change in changes)
    return f"{head}{tomlkit.dumps(table)}".encode()


def _text_of(path: Path | str) -> str:
    try:
        return read_file(Path(path), LARGEST_FILE)
    except UnreadableError as error:
        raise _refused(printable(str(path)), error) from None


def _parse(text: str, file: str) -> dict[str, object]:
    try:
        if len(text) > LARGEST_FILE:
            raise UnreadableError("large", "more than 200 kB")
        return parse_toml(text)
    except UnreadableError as error:
        raise _refused(file, error) from None


def _read(root: BriefTable, notes: Notes) -> Brief:
    root.check("name")
    printer = read_printer(root.printer)
    frame = read_frame(root.frame, printer)
    motion = read_motion(root.motion)
    _judge_mass(notes, root, printer, motion)
    slab = read_slab(root.slab) if root.has("slab") else None
    feet = read_feet(root.feet)
    printer = weighed(notes, printer, feet, slab)
    feet = judge_standing(notes, printer, feet, slab)
    if slab is None and feet.now is not None and feet.now.under == "slab":
        wanted, advice = "a slab that they are under", "tell it under [slab]"
        notes.fault("feet.now.under", "no slab in the brief", wanted, advice)
    if slab is not None:
        slab = judge_slab(notes, slab, feet, printer)
    limits = read_limits(root.limits)
    stock = read_stock(root.stock)
    _judge_widths(notes, limits, stock)
    _judge_balls(notes, feet, stock)
    _judge_mounts(notes, feet, stock, slab)
    _judge_bed(notes, root, printer)
    desk = read_desk(root.desk)
    if notes.clean("desk", "feet", "printer", "slab"):
        judge_desk(notes, desk, all_places(feet, printer.size, slab))
    brief = Brief(
        name=root.name,
        slug=folder_name(root.name),
        printer=printer,
        frame=frame,
        motion=motion,
        motors=read_motors(root.motor, root),
        fans=read_fans(root.fan, notes),
        feet=feet,
        desk=desk,
        loads=read_loads(root.load, notes),
        limits=limits,
        stock=stock,
        print=read_print(root.print),
        damper=read_damper(root.damper),
        driver=read_driver(root.driver),
        room=read_room(root.room),
        assumed=tuple(notes.assumed),
        warnings=tuple(notes.warnings),
        source_file=notes.file,
        slab=slab,
        noise=read_noise(root.noise),
    )
    root.done()
    return brief


def _judge_balls(notes: Notes, feet: Feet, stock: Stock) -> None:
    """Say what half-balls do not get."""
    if not stock.balls:
        return
    if feet.tread:
        notes.warn("feet.tread", "half-balls get none: they have no sole")
    if feet.pads == "level":
        notes.warn("feet.pads", "half-balls stay equal: they are as they are bought")


def _judge_mounts(notes: Notes, feet: Feet, stock: Stock, slab: Slab | None) -> None:
    """Say why mounts that the brief tells are not offered."""
    if not stock.mounts or not notes.clean("feet.attachment"):
        return
    why = UNDER_SLAB if slab is not None else no_room_for_mounts(feet.attachment)
    if why:
        notes.warn("stock.mount", f"not offered: {why}")


def _judge_mass(notes: Notes, root: BriefTable, printer: Printer, motion: Motion) -> None:
    """Refuse a printer no heavier than what is told to move on it; doubt it by what is assumed."""
    masses = {key: getattr(motion, key) for key in ("tool_mass", "gantry_mass", "bed_mass")}
    moving = sum(masses.values())
    if not notes.clean("printer", "motion") or printer.mass > moving:
        return
    key = "printer.mass" if root.printer.has("mass") else "printer.lump"
    found, most = format_quantity(printer.mass, "kg"), format_quantity(moving, "kg")
    mend = "weigh the whole printer, or tell motion.tool_mass, gantry_mass and bed_mass"
    if all(root.motion.has(each) for each, mass in masses.items() if mass > 0.0):
        notes.fault(key, found, f"more than the {most} that moves on it", mend)
    else:
        notes.warn(key, f"{found} is no more than the {most} taken to move on it; {mend}")


def _judge_bed(notes: Notes, root: BriefTable, printer: Printer) -> None:
    """Doubt a frame that is out of all proportion to the bed that is told."""
    if not root.print.has("bed"):
        return
    for axis, bed in enumerate(root.print.bed[:2]):
        if printer.size[axis] > FRAME_OVER_BED * bed:
            notes.warn(
                "printer.size",
                f"{format_quantity(printer.size[axis], 'mm')} along {'xy'[axis]} is more than "
                f"{FRAME_OVER_BED:g} times the bed of {format_quantity(bed, 'mm')} in print.bed; "
                "check both",
            )


def _judge_widths(notes: Notes, limits: Limits, stock: Stock) -> None:
    if limits.foot_width < stock.widths[0]:
        notes.fault(
            "limits.foot_width",
            format_quantity(limits.foot_width, "mm"),
            f"no less than the smallest pad, {format_quantity(stock.widths[0], 'mm')}",
            "raise it, or lower the first of stock.widths",
        )


def _refused(file: str, error: UnreadableError) -> InputError:
    wanted, advice = _WANTED[error.kind]
    got = f"{error.got} in line {error.line}" if error.line else error.got
    return refused(file, "", got, wanted, advice)
