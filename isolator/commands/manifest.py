"""The manifest: by what a folder of ours is known, what we wrote into it, and for which brief."""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import dataclass
from pathlib import Path
from typing import Any

MARK = "manifest.json"
MAKER = "isolator"
SHEET = "design.toml"
BRIEF = "brief.toml"
TOLD = ("report.html", "result.json")
BEFORE_LISTS = (SHEET, *TOLD, "shopping.csv", "readings.txt")
"""What folders hold besides parts that were written before the manifest listed every file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Origin:
    """The brief that a folder is made from: its name, its file and what the file held.

    No file: only the name is known, from a sheet. `typed` is the hash of the file, where what was
    read is not what it holds: keys may be changed for one run.
    """

    name: str
    file: Path | None
    held: bytes
    typed: str = ""


def origin_of(name: str, file: Path) -> Origin:
    """Return the brief called `name` in `file` as an origin; raises OSError."""
    held = file.read_bytes()
    return Origin(name=name, file=file, held=held, typed=digest(held))


def write_manifest(folder: Path, manifest: dict[str, Any], **more: Any) -> dict[str, Any]:
    """Write what was drawn, and `more`, as the file by which a folder of ours is known."""
    whole = {**manifest, "made_by": MAKER, **more}
    write_json(folder / MARK, whole)
    return whole


def write_json(file: Path, told: dict[str, Any]) -> None:
    """Write `told` for people and programs to read."""
    text = json.dumps(told, indent=2, ensure_ascii=False) + "\n"
    file.write_text(text, encoding="utf-8")


def read_manifest(folder: Path) -> dict[str, Any]:
    """Return the manifest in a folder; empty where there is none of ours that can be read."""
    found = _read(folder)
    return found if found is not None and found.get("made_by") == MAKER else {}


def is_broken(folder: Path) -> bool:
    """Return whether a folder has a manifest that cannot be made out: cut off, empty, no table."""
    return (folder / MARK).is_file() and _read(folder) is None


def _read(folder: Path) -> dict[str, Any] | None:
    try:
        found = json.loads((folder / MARK).read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) else None


def close_manifest(folder: Path, target: Path, origin: Origin | None, by_hand: bool) -> None:
    """Add to the manifest in `folder` every file that was written, and the brief it is made from.

    `target` is where the folder will stand: the brief's path is told from there. `by_hand`: the
    sheet was edited by somebody.
    """
    told = read_manifest(folder)
    if origin is not None and origin.file is not None:
        (folder / BRIEF).write_bytes(origin.held)
        told["brief"] = {
            "name": origin.name,
            "file": _from_folder(origin.file, target),
            "sha256": digest(origin.held),
            "file_sha256": origin.typed or digest(origin.held),
        }
    if by_hand:
        told["by_hand"] = [SHEET]
    parts = _table(told, "files_sha256")
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    names = {path.relative_to(folder).as_posix(): path for path in files}
    told["written_sha256"] = {
        name: digest(path.read_bytes())
        for name, path in names.items()
        if name != MARK and name not in parts
    }
    write_manifest(folder, told)


def written(told: dict[str, Any]) -> dict[str, str | None]:
    """Return by path the SHA-256 of every file that a manifest lists; None where it is not told."""
    parts = _table(told, "files_sha256")
    if "written_sha256" in told:
        return {**parts, **_table(told, "written_sha256")}
    return {**dict.fromkeys(BEFORE_LISTS), **parts, SHEET: told.get("sheet_sha256")}


def drawn_from(folder: Path) -> str | None:
    """Return the hash of the sheet that the parts in a folder were drawn from.

    Not of the sheet that lies there: it may have been edited since.
    """
    found = read_manifest(folder).get("sheet_sha256")
    return found if isinstance(found, str) else None


def brief_told(folder: Path, told: dict[str, Any]) -> tuple[str, Path | None, str]:
    """Return name, file and hash of the brief that a manifest names; no file where it has none."""
    brief = told.get("brief")
    if not isinstance(brief, dict):
        return str(told.get("name", "")), None, ""
    name, file, held = (str(brief.get(key, "")) for key in ("name", "file", "sha256"))
    return name, Path(os.path.normpath(folder / file)) if file else None, held


def file_told(told: dict[str, Any]) -> str:
    """Return the hash that the brief's file had, as a manifest tells it."""
    brief = _table(told, "brief")
    return str(brief.get("file_sha256") or brief.get("sha256", ""))


def is_of(folder: Path, origin: Origin) -> bool:
    """Return whether a folder of ours was made from this brief, and from no other.

    A brief is known by its name, and by its file as long as that is there: one that was moved is
    the same, and so is a copy to the letter.
    """
    told = read_manifest(folder)
    name, file, held = brief_told(folder, told)
    if not told or not name:
        return True
    if name != origin.name:
        return False
    if origin.file is None or file is None or not file.is_file() or held == digest(origin.held):
        return True
    return file.samefile(origin.file)


def digest(held: bytes) -> str:
    """Return by what the bytes of a file are known again."""
    return hashlib.sha256(held).hexdigest()


def _from_folder(file: Path, target: Path) -> str:
    try:
        found = os.path.relpath(file.resolve(), target.resolve())
    except ValueError:  # another drive
        found = str(file.resolve())
    return Path(found).as_posix()


def _table(told: dict[str, Any], key: str) -> dict[str, str]:
    found = told.get(key)
    return found if isinstance(found, dict) else {}
