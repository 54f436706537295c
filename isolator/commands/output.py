"""Output appears whole or not at all: written beside its place, then renamed into it."""

from __future__ import annotations

import hashlib
import json
import secrets
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from isolator.reading.faults import InputError, refused

MARK = "manifest.json"
MAKER = "isolator"
SHEET = "design.toml"
EDITED = "design.edited.toml"


def publish(out: Path, slug: str, write: Callable[[Path], None]) -> Path:
    """Let `write` fill a new folder, then put it at `out`/`slug`; return that folder.

    A folder that stands there is replaced only if this program made it. Whatever `write` raises
    leaves everything as it was.
    """
    target = out / slug
    refuse_foreign(target)
    # named before it is made: Ctrl-C at any moment finds it to take away
    fresh = out / f".{slug}-{secrets.token_hex(8)}"
    try:
        try:
            out.mkdir(parents=True, exist_ok=True)
            fresh.mkdir()
        except OSError as error:
            raise _unwritable(out, error) from None
        fresh.chmod(0o755)
        write(fresh)
        _swap(fresh, target)
    except OSError as error:
        raise _unwritable(target, error) from None
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
    return target


def write_manifest(folder: Path, manifest: dict[str, Any], **more: str) -> dict[str, Any]:
    """Write what was drawn, and `more`, as the file by which a folder of ours is known."""
    whole = {**manifest, "made_by": MAKER, **more}
    write_json(folder / MARK, whole)
    return whole


def write_json(file: Path, told: dict[str, Any]) -> None:
    """Write `told` for people and programs to read."""
    text = json.dumps(told, indent=2, ensure_ascii=False) + "\n"
    file.write_text(text, encoding="utf-8")


def sheet_hash(text: str) -> str:
    """Return by what a drawing sheet is known again."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def edited_sheet(folder: Path) -> str | None:
    """Return the sheet in a folder if somebody has edited it since its parts were drawn.

    A new design takes its place, but what was typed by hand is kept beside it.
    """
    there = folder / SHEET
    if not there.is_file():
        return None
    text = there.read_text(encoding="utf-8", errors="replace")
    return None if drawn_from(folder) == sheet_hash(text) else text


def drawn_from(folder: Path) -> str | None:
    """Return the hash of the sheet that the parts in a folder were drawn from.

    Not of the sheet that lies there: it may have been edited since.
    """
    if not (folder / MARK).is_file():
        return None
    found = json.loads((folder / MARK).read_text(encoding="utf-8")).get("sheet_sha256")
    return found if isinstance(found, str) else None


def refuse_foreign(target: Path) -> None:
    """Raise InputError if something stands at `target` that this program did not make."""
    if not target.exists() and not target.is_symlink():
        return
    if target.is_dir() and not target.is_symlink() and _ours(target):
        return
    raise refused(
        str(target),
        "",
        "something that this program did not write",
        "a place of its own for the output",
        "move it away, rename the brief, or choose another --out",
    )


def _ours(folder: Path) -> bool:
    if not any(folder.iterdir()):
        return True
    try:
        found = json.loads((folder / MARK).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return False
    return isinstance(found, dict) and found.get("made_by") == MAKER


def _swap(fresh: Path, target: Path) -> None:
    """Put `fresh` in the place of `target`, keeping the old one until the new one stands."""
    if not target.exists():
        fresh.rename(target)
        return
    old = Path(tempfile.mkdtemp(prefix=f".{target.name}-old-", dir=target.parent))
    target.rename(old / target.name)
    try:
        fresh.rename(target)
    except OSError:
        (old / target.name).rename(target)
        raise
    finally:
        shutil.rmtree(old, ignore_errors=True)


def _unwritable(path: Path, error: OSError) -> InputError:
    got = (error.strerror or "an error of the disk").lower()
    wanted = "a place that can be written to"
    return refused(str(path), "", got, wanted, "choose another folder with --out")
