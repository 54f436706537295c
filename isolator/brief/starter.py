"""The starter brief: ten questions first, then every other key, its meaning and its default.

It is made from the keys as they are declared. What the questions ask is said, what would be
assumed is shown as a remark with the value that reading the rest assumes, and so is what may be
said besides. Keys are written whole, so that a remark counts wherever it stands.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from isolator.brief.brief import BriefTable
from isolator.brief.read import read_brief_text
from isolator.physics.drive.stepper import LAYOUTS
from isolator.reading.files import parse_toml
from isolator.reading.keys import Key
from isolator.reading.notes import Notes
from isolator.reading.table import Table, Within

_HEAD = """\
# A brief: what is known about one printer. Ten questions come first; put your own answers in.
# Quantities are "number unit"; any unit of the right kind is taken (mm, in, thou, g, lb, rpm ...).
"""
_LINE = """

# ------------------------------------------------------------------------------------------------
# You may stop here: everything below is taken as it stands unless you say otherwise, and the report
# lists what was assumed. Lines that begin "# " show what is assumed: remove "# " to change it.
# Lines that begin "#" show what may be said besides: remove "#" to say it; of a block that begins
# "#[[", remove it from all its lines.
# x runs to the right, y to the back, z up; the origin is the middle of the feet, on the underside
# of the printer's frame."""
QUESTIONS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("What is it called?", ("name",)),
    ("How heavy is it, and how large?", ("printer.mass", "printer.size")),
    ("How do its belts run?", ("motion.layout",)),
    ("How fast do you print?", ("motion.speeds", "motion.acceleration")),
    ("How much moves?", ("motion.tool_mass", "motion.gantry_mass", "motion.bed_mass")),
    ("Which motors and pulleys?", ("motion.steps_per_turn", "motion.pulley_teeth")),
    ("How can feet be fixed to it?", ("feet.attachment",)),
    ("What does it stand on?", ("desk.material", "desk.thickness")),
    ("How far may it sway on its feet?", ("limits.sway",)),
    (
        "What stands under it today? Remove the # and say; else rubber bumpers are taken for it.",
        tuple(f"feet.now.{key}" for key in ("material", "shape", "size", "thickness", "bonded")),
    ),
)
"""What is asked first, and the keys that answer it."""
_OF_ONE_LAYOUT = {"motion.bed_mass": "moving-bed"}
_COMMENTS = 53
"""Column at which comments begin."""
MOTOR, _MOTORS = "motor", 2
_OF_OTHERS = ("name", "frame_size", "position")
"""What is shown of a motor after the first."""


def starter_text(layout: str = LAYOUTS[0]) -> str:
    """Return a commented brief that can be read as it stands, for one of `LAYOUTS`.

    Uncommenting any line that begins "# key =" changes nothing but what counts as assumed.
    """
    root = BriefTable(Notes(""), "", {"motion": {"layout": layout}})
    asked = [
        (number, question, [path for path in paths if _OF_ONE_LAYOUT.get(path, layout) == layout])
        for number, (question, paths) in enumerate(QUESTIONS, 1)
    ]
    first = "\n".join(
        "\n".join(("", f"# {number}. {question}", *(_said(root, path) for path in paths)))
        for number, question, paths in asked
    )
    assumed = {each.key for each in read_brief_text(first, "").assumed}
    root = BriefTable(Notes(""), "", parse_toml(first))
    known = {path for _, _, paths in asked for path in paths}
    rest = [*_rest(root, assumed, known), *_blocks(root)]
    return "\n".join((_HEAD + first + _LINE, *rest, ""))


def _said(root: BriefTable, path: str) -> str:
    """Return the line that answers a question."""
    *above, name = path.split(".")
    table: Table = root
    aside = False
    for each in above:
        within = table.declared()[each]
        assert isinstance(within, Within)
        table, aside = _inner(table, within), aside or within.aside
    key = table.declared()[name]
    assert isinstance(key, Key)
    said = table.raw(name) or (key.said(table) if callable(key.said) else key.said)
    found = (said, key.example, _default(key, table))
    return _line("#" * aside, key, next(each for each in found if each is not None), table)


def _default(key: Key[Any], table: Table) -> Any:
    """Return a key's default as it is written, None where it has none."""
    if not key.default:
        return None
    default = key.default[0](table) if callable(key.default[0]) else key.default[0]
    return None if default is None else key.write(default, 6)


def _rest(table: Table, assumed: set[str], known: set[str], above: str = "") -> Iterator[str]:
    """Yield every key that no question asks for, table by table; blocks aside."""
    lines = [
        line
        for key in table.declared().values()
        if isinstance(key, Key) and table.path(key.name) not in known
        for line in _remark(table, key, assumed)
    ]
    if lines:
        yield from ("", *_above(above), *lines)
    for within in table.declared().values():
        if isinstance(within, Within) and not within.many:
            yield from _rest(_inner(table, within), assumed, known, within.above)


def _inner(table: Table, within: Within[Any], number: int = 1) -> Table:
    name = table.path(within.name)
    if within.aside or within.many:
        made: Table = within.kind(table.notes, name, {}, table, number)
        return made
    return getattr(table, within.name)  # type: ignore[no-any-return]


def _blocks(table: Table) -> Iterator[str]:
    """Yield the tables of which there may be many, as remarks: they stand behind all else."""
    for within in table.declared().values():
        if isinstance(within, Key):
            continue
        if not within.many:
            yield from _blocks(_inner(table, within))
            continue
        if not within.aside and within.name != MOTOR:
            continue
        for number in range(1, (_MOTORS if within.name == MOTOR else 1) + 1):
            inner = _inner(table, within, number)
            yield from ("", *(_above(within.above) if number == 1 else ()))
            yield f"#[[{inner.where}]]"
            for key in inner.declared().values():
                if isinstance(key, Key):
                    yield from _remark(inner, key, set(), whole=False)


def _remark(table: Table, key: Key[Any], assumed: set[str], whole: bool = True) -> Iterator[str]:
    """Yield a key as a remark, if there is anything to show of it; its name whole or alone."""
    if table.number > 1 and key.name not in _OF_OTHERS:
        return
    value = key.said(table) if callable(key.said) else key.said
    if value is None:
        value = key.example
    mark = "#"
    if value is None:
        value = _default(key, table)
        mark = "# " if table.path(key.name) in assumed else "#"
    if value is not None:
        yield from _above(key.above)
        yield _line(mark, key, value, table, whole)


def _line(mark: str, key: Key[Any], value: Any, table: Table, whole: bool = True) -> str:
    name = table.path(key.name) if whole else key.name
    line = f"{mark}{name} = {json.dumps(value, ensure_ascii=False)}"
    if not key.comment or table.number > 1:
        return line
    first, *more = key.comment.split("\n")
    gap = _COMMENTS - len(line) if len(line) < _COMMENTS else 3
    return "\n".join((f"{line}{' ' * gap}# {first}", *(f"## {each}" for each in more)))


def _above(text: str) -> Iterator[str]:
    for line in text.splitlines():
        yield f"## {line}"
