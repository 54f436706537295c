"""The text of a brief that taps correct: a copy that reads where it lies."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from isolator.brief.frame import FASTEST, SLOWEST
from isolator.measuring.tap_found import Corrected, TappedFoot
from isolator.reading.files import parse_toml
from isolator.vibration.band import Band

INSTEAD = ("positions", "count", "inset", "design", "given")
"""Keys of [feet] in whose place the tapped feet stand."""
PATHS = (("stock", "cards"), ("feet", "design"))
"""Keys of paths that start in the brief's own folder."""
PLAIN = "# Written anew with what taps changed; comments stand in the brief itself."


def corrected_text(path: Path, corrected: Corrected, folder: Path) -> str:
    """Return the text of the brief at `path`, as a file in `folder`, with what taps changed.

    Everything else stays as it was typed. Empty where nothing changes.
    """
    import tomlkit  # some 30 ms: loaded when first needed

    if not corrected.changes:
        return ""
    text = path.read_text(encoding="utf-8-sig")
    document: Any = tomlkit.parse(text)
    wanted = parse_toml(text)
    tail: list[str] = []
    for name, values in _changes(wanted, corrected, path.parent, folder).items():
        table, held = document.get(name), wanted.setdefault(name, {})
        inline = table is None or isinstance(table, tomlkit.items.InlineTable)
        if inline:  # braces hold no comment and no [[table]]: it moves to the end
            document.pop(name, None)
            table = tomlkit.table()
            for key, value in held.items():
                table[key] = value
        for key, value in values.items():
            held.pop(key, None)
            if value is None:
                table.pop(key, None)
            else:
                held[key] = table[key] = value
        if name == "frame":
            table["frequency"].comment(f"by taps: {_told(corrected.frame, 'Hz')}")
            table["damping"].comment(f"by taps: {_told(corrected.frame_damping)}")
        if inline and held:
            tail.append(tomlkit.dumps({name: table}))
    if corrected.feet:
        # at the end: keys with dots may follow anywhere above
        rows = [_row(foot) for foot in corrected.feet]
        wanted.setdefault("feet", {})["given"] = rows
        tail += [_typed(row, foot) for row, foot in zip(rows, corrected.feet, strict=True)]
    text = "\n".join((tomlkit.dumps(document), *tail))
    # a layout that nobody thought of: what it says counts more than how it is typed
    if _reads(text, wanted):
        return text
    beside = [f"# {line}" for line in _bands(corrected)]
    return "\n".join((PLAIN, *beside, tomlkit.dumps(wanted)))


def _reads(text: str, wanted: dict[str, Any]) -> bool:
    import tomllib

    try:
        return tomllib.loads(text) == wanted
    except tomllib.TOMLDecodeError:
        return False


def _changes(
    before: dict[str, Any], corrected: Corrected, home: Path, folder: Path
) -> dict[str, dict[str, Any]]:
    """Return new values of keys by table; None: the key goes."""
    changes: dict[str, dict[str, Any]] = {}
    for name, key in PATHS:
        if key in before.get(name, {}):
            moved = _moved(before[name][key], home, folder)
            changes.setdefault(name, {})[key] = moved
    if corrected.feet:
        changes.setdefault("feet", {}).update(dict.fromkeys(INSTEAD))
    if corrected.frame:
        values = [round(min(max(each.nominal, 0.001), 0.3), 4) for each in corrected.frame_damping]
        changes["frame"] = {
            "frequency": [f"{_within(each.nominal):.4g} Hz" for each in corrected.frame],
            "damping": values if len(values) > 1 else values[0],
        }
    return changes


def _moved(typed: str, home: Path, folder: Path) -> str:
    """Return a path typed in a file in `home` as a file in `folder` says it."""
    place = (home / typed).resolve()
    if Path(typed).is_absolute():
        return typed
    try:
        return Path(os.path.relpath(place, folder.resolve())).as_posix()
    except ValueError:  # another drive
        return place.as_posix()


def _row(foot: TappedFoot) -> dict[str, Any]:
    row: dict[str, Any] = {
        "position": [f"{each * 1e3:.5g} mm" for each in foot.position],
        "stiffness": [f"{each.nominal * 1e-3:.4g} N/mm" for each in foot.stiffness],
    }
    if any(each.nominal for each in foot.angular):
        row["angular"] = [f"{each.nominal:.4g} N*m/rad" for each in foot.angular]
    return {**row, "loss_factor": round(min(foot.loss_factor.nominal, 2.0), 4)}


def _typed(row: dict[str, Any], foot: TappedFoot) -> str:
    """Return a row as text, with the bands that its keys cannot hold beside them."""
    import tomlkit

    beside = _beside(foot)
    lines = ["[[feet.given]]"]
    for key, value in row.items():
        typed = tomlkit.dumps({key: value}).rstrip("\n")
        lines.append(f"{typed}  # {beside[key]}" if key in beside else typed)
    return "\n".join(lines) + "\n"


def _within(hertz: float) -> float:
    return min(max(hertz, SLOWEST), FASTEST)


def _beside(foot: TappedFoot) -> dict[str, str]:
    """Return what is told beside the keys of a tapped foot."""
    loss = f"by taps: {_told([foot.loss_factor])}" if foot.loss_tapped else "the model's"
    return {
        "stiffness": f"by taps: {_told(foot.stiffness, 'N/mm', 1e-3)}",
        "angular": f"by taps: {_told(foot.angular, 'N*m/rad')}",
        "loss_factor": loss,
    }


def _bands(corrected: Corrected) -> list[str]:
    """Return all bands, a line each, for a copy in which none can stand beside its key."""
    told = []
    if corrected.frame:
        told.append(f"frame.frequency by taps: {_told(corrected.frame, 'Hz')}")
        told.append(f"frame.damping by taps: {_told(corrected.frame_damping)}")
    for number, foot in enumerate(corrected.feet, 1):
        told += [f"feet.given[{number}].{key} {text}" for key, text in _beside(foot).items()]
    return told


def _told(bands: Sequence[Band], unit: str = "", by: float = 1.0) -> str:
    end = f" {unit}" if unit else ""
    return ", ".join(f"{by * each.low:.3g} to {by * each.high:.3g}{end}" for each in bands)
