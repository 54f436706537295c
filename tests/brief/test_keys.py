"""Every key is declared once: records, starter and drawing sheet follow from the declarations."""

from __future__ import annotations

import dataclasses
import re
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
from briefs import BARE, swapped

from isolator import brief as room
from isolator import design as sheet_records
from isolator.brief import read_brief_text
from isolator.brief.brief import BriefTable
from isolator.brief.mounts import Mount
from isolator.brief.starter import starter_text
from isolator.design.damper import MotorDamper
from isolator.design.sheet import DesignTable
from isolator.reading.keys import Key
from isolator.reading.notes import Notes
from isolator.reading.table import Table, Within


def tables(kind: type[Table], path: str = "") -> Iterator[tuple[str, type[Table]]]:
    """Yield every kind of table with its dotted name."""
    yield path, kind
    for name, it in kind.declared().items():
        if isinstance(it, Within):
            yield from tables(it.kind, f"{path}.{name}" if path else name)


BRIEF, SHEET = dict(tables(BriefTable)), dict(tables(DesignTable))

# record of a table: fields that follow from other keys, and keys that lead to them
RECORDS: dict[str, tuple[type, set[str], set[str]]] = {
    "printer": (room.Printer, {"lumps", "extras"}, {"lump", "extra"}),
    "printer.lump": (room.Lump, set(), set()),
    "printer.extra": (room.Extra, {"mass_low", "mass_high"}, {"mass"}),
    "frame": (room.Frame, set(), set()),
    "motion": (
        room.Motion,
        set(),
        {"belt_span", "belt_pluck", "belt_line_mass"},
    ),
    "motor": (room.Motor, {"points", "mount"}, set()),
    "fan": (room.Fan, set(), set()),
    "feet": (room.Feet, set(), {"spacing"}),
    "feet.given": (room.GivenFoot, set(), set()),
    "feet.now": (room.NowFoot, {"first", "second"}, {"size"}),
    "slab": (room.Slab, set(), set()),
    "desk": (room.Desk, set(), set()),
    "load": (room.Load, set(), set()),
    "limits": (room.Limits, set(), {"min_insertion_loss_db"}),
    "stock": (room.Stock, {"balls", "mounts"}, {"ball", "mount"}),
    "stock.mount": (
        Mount,
        {"id", "size", "loss_told", "ratio_told"},
        {"diameter", "height", "rubber", "thread", "upper", "lower", "stud", "depth", "stiffness"},
    ),
    "stock.ball": (room.Ball, set(), set()),
    "stock.owned": (room.Owned, set(), set()),
    "print": (room.Print, {"fits"}, set()),
    "damper": (room.DamperStock, {"cast", "mounts"}, {"rubber", "mount"}),
    "damper.mount": (
        room.DamperMount,
        {"id", "loss_told", "ratio_told"},
        {"torques", "angles", "radial_loads", "radial_sags", "axial_loads", "axial_sags"},
    ),
    "driver": (room.Driver, set(), {"sense_resistor"}),
    "room": (room.Room, set(), set()),
}
SHEET_RECORDS: dict[str, tuple[type, set[str], set[str]]] = {
    "": (
        sheet_records.Design,
        {"feet", "motor_spacers", "motor_dampers"},
        {"foot", "motor_spacer", "motor_damper"},
    ),
    "print": (sheet_records.PrintSettings, {"fits"}, {"fit"}),
    "print.fit": (sheet_records.FilamentFit, set(), set()),
    "slab": (sheet_records.Slab, set(), set()),
    "foot": (sheet_records.Foot, set(), set()),
    "foot.ends": (sheet_records.Ends, set(), set()),
    "foot.pad": (sheet_records.Pad, {"printed"}, set()),
    "motor_spacer": (sheet_records.MotorSpacer, set(), set()),
    "motor_damper": (MotorDamper, set(), set()),
}
CASES = [
    *((BRIEF[path], *rest) for path, rest in RECORDS.items()),
    *((SHEET[path], *rest) for path, rest in SHEET_RECORDS.items()),
]


def test_every_table_is_looked_at() -> None:
    assert BRIEF.keys() - RECORDS.keys() == {"", "fit", "noise"}
    assert SHEET.keys() == SHEET_RECORDS.keys()


@pytest.mark.parametrize(("table", "record", "follow", "lead"), CASES)
def test_each_field_of_a_record_has_one_key_of_its_name(
    table: type[Table], record: type, follow: set[str], lead: set[str]
) -> None:
    fields = {field.name for field in dataclasses.fields(record)}
    assert fields - follow == table.declared().keys() - lead


def shown(path: str, text: str) -> list[str]:
    """Return the keys of a table that the starter shows: written whole, or in its first block."""
    whole = rf"(?m)^(?:# ?)?{re.escape(path)}{'[.]' if path else ''}([A-Za-z_]+) = "
    block = re.search(rf"(?ms)^#\[\[{re.escape(path)}\]\]\n(.*?)(?:\n\n|\Z)", text)
    if block is None:
        return re.findall(whole, text.partition("\n#[[")[0])
    return re.findall(r"(?m)^#([a-z_]+) = ", block[1])


@pytest.mark.parametrize("path", [path for path in BRIEF if path not in ("printer.lump", "fit")])
def test_the_starter_shows_each_key_once(path: str) -> None:
    # of a moving bed, which has every key
    names = shown(path, starter_text("moving-bed"))
    declared = BRIEF[path].declared().items()
    keys = [name for name, it in declared if isinstance(it, Key) and not it.old]
    assert sorted(names) == sorted(keys)


def test_what_the_starter_remarks_is_what_is_assumed_without_it() -> None:
    """Said one by one, a remark "# key =" changes no value and takes one assumption away."""
    text = starter_text()
    plain = read_brief_text(text, "brief.toml")
    remarks = [*re.finditer(r"(?m)^# (?=[a-z_.]+ = )", text)]
    assert len(remarks) > 45
    for remark in remarks:
        said = text[: remark.start()] + text[remark.end() :]
        brief = read_brief_text(said, "brief.toml")
        gone = {each.key for each in plain.assumed} - {each.key for each in brief.assumed}
        assert len(gone) == 1
        key = re.match(r"[a-z_.]+", text[remark.end() :])
        assert key is not None
        assert gone.pop() == key.group()
        assert close(brief, plain)


def close(one: Any, other: Any) -> bool:
    """Return whether two briefs are the same but for rounding and what is assumed."""
    if dataclasses.is_dataclass(one):
        return all(
            close(getattr(one, field.name), getattr(other, field.name))
            for field in dataclasses.fields(one)
            if field.name != "assumed"
        )
    if isinstance(one, tuple):
        return len(one) == len(other) and all(map(close, one, other))
    # a share of the size and the same length typed differ in their last digit
    return bool(one == pytest.approx(other, rel=1e-12) if isinstance(one, float) else one == other)


def test_what_is_read_of_a_default_as_it_is_written_is_the_default() -> None:
    """Every plain default that is told or left out of a sheet comes back from its own text."""
    found = 0
    for kind in (*BRIEF.values(), *SHEET.values()):
        for key in kind.declared().values():
            if not isinstance(key, Key) or not key.default or key.depends is not None:
                continue
            value = key.default[0]
            told = len(key.default) > 1 or kind in SHEET.values()
            if not told or callable(value) or value in (None, (), ""):
                continue
            notes = Notes("brief.toml")
            written = tomllib.loads(f"v = {toml(key.write(value, 9))}")["v"]
            assert close(key.read(notes, key.name, written), value), (kind, key.name)
            assert (notes.faults, notes.warnings) == ([], [])
            found += 1
    assert found > 50


def toml(value: Any) -> str:
    """Return a value as TOML."""
    if isinstance(value, list):
        return f"[{', '.join(map(toml, value))}]"
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else str(value)


def test_a_key_that_is_gone_says_so() -> None:
    text = swapped(("[motion]", "[limits]\nmin_insertion_loss_db = 6\n[motion]"), text=BARE)
    with pytest.raises(Exception, match="min_insertion") as refused:
        read_brief_text(text, "brief.toml")
    assert str(refused.value) == (
        "brief.toml: limits.min_insertion_loss_db: found an old key; wanted none here; leave it "
        "out: the feet that keep back most are chosen, and the report tells how much"
    )


def test_holes_typed_for_another_attachment_are_ignored_with_a_warning() -> None:
    feet = "[feet]\nattachment = 'two-bolts'\nspacing = '50 mm'\nholes = [['1 mm', '2 mm']]\n"
    brief = read_brief_text(f"{BARE}{feet}", "brief.toml")
    assert brief.feet.holes == ((-0.025, 0.0), (0.025, 0.0))
    assert brief.warnings == ('feet.holes is ignored: "two-bolts" has none',)
