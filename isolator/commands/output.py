"""Output appears whole or not at all: written aside, then exchanged with what is there."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from isolator.brief.locked import locked
from isolator.commands.exchange import mend, new_folder, put
from isolator.commands.kept import carry_over
from isolator.commands.manifest import (
    Origin,
    brief_told,
    close_manifest,
    is_broken,
    is_of,
    read_manifest,
)
from isolator.commands.written import WRITTEN
from isolator.reading.faults import InputError, refused
from isolator.reading.printable import printable

ELSEWHERE = "move it away, rename the brief, or choose another --out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """Where a folder stands, and the dated copies in it of what somebody had edited."""

    folder: Path
    copies: tuple[str, ...]


def publish(
    out: Path,
    slug: str,
    write: Callable[[Path], None],
    origin: Origin | None,
    *,
    by_hand: bool = False,
) -> Published:
    """Let `write` fill a new folder, then put it at `out`/`slug`, made from `origin`.

    A folder that stands there is replaced only if this program made it, for the same brief. What
    its manifest does not list stays, and so does what was edited, as a dated copy. Whatever
    `write` raises leaves everything as it was. `by_hand`: the sheet was edited by somebody.
    """
    target = out / slug
    make_ready(out, slug, origin)
    copies: list[str] = []
    try:
        out.mkdir(parents=True, exist_ok=True)
        with new_folder(out, slug) as fresh:
            fresh.chmod(0o777 & ~umask())
            write(fresh)
            close_manifest(fresh, target, origin, by_hand)
            with locked(out):
                _refuse_others(target, origin)  # another run may have made it meanwhile
                if target.exists():
                    copies = carry_over(target, fresh)
                put(fresh, target)
                WRITTEN.append(str(target))
    except OSError as error:
        raise _unwritable(target if out.is_dir() else out, error) from None
    return Published(folder=target, copies=tuple(copies))


def make_ready(out: Path, slug: str, origin: Origin | None) -> None:
    """Mend what killed runs left in `out`; raise InputError if `out`/`slug` is not to be replaced.

    That is what this program did not make, and what it made from another brief.
    """
    try:
        mend(out)
    except OSError as error:
        raise _unwritable(out, error) from None
    _refuse_others(out / slug, origin)


def _refuse_others(target: Path, origin: Origin | None) -> None:
    if not target.exists() and not target.is_symlink():
        return
    wanted = "a place of its own for the output"
    if target.is_symlink() or not target.is_dir() or not _ours(target):
        got = "something that this program did not write"
        if not target.is_symlink() and is_broken(target):
            got = "a manifest.json that is cut off or of another kind"
    elif origin is not None and not is_of(target, origin):
        name, file, _ = brief_told(target, read_manifest(target))
        where = "" if file is None else f" ({printable(str(file))})"
        got = f'what was made from another brief, "{printable(name)}"{where}'
    else:
        return
    raise refused(printable(str(target)), "", got, wanted, ELSEWHERE)


def _ours(folder: Path) -> bool:
    return not any(folder.iterdir()) or bool(read_manifest(folder))


def umask() -> int:
    """Return the bits that new files of this user do not get; asking is setting it for a moment."""
    found = os.umask(0o077)
    os.umask(found)
    return found


def _unwritable(path: Path, error: OSError) -> InputError:
    got = (error.strerror or "an error of the disk").lower()
    wanted = "a place that can be written to"
    return refused(printable(str(path)), "", got, wanted, "choose another folder with --out")
