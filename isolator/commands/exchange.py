"""A new folder in the place of an old one, in one step where the system can; else mended later."""

from __future__ import annotations

import ctypes
import os
import re
import secrets
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from isolator.brief.locked import hold, locked

HIDDEN = re.compile(r"\.isolator-(new|old)\.([a-z0-9-]+)\.\w+")
"""Folders on their way, in the folder of the output."""
AT_FDCWD, RENAME_EXCHANGE = -100, 2  # of Linux, linux/fcntl.h and linux/fs.h, from memory
ABANDONED = 86_400.0
"""After so long [s] a hidden folder is nobody's, where it cannot be seen whether its run lives."""


@contextmanager
def new_folder(out: Path, slug: str) -> Iterator[Path]:
    """Give an empty hidden folder in `out`, held as long as it is used, and remove it after."""
    # named before it is made: Ctrl-C at any moment finds it to take away
    fresh = out / f".isolator-new.{slug}.{secrets.token_hex(8)}"
    number: int | None = None
    try:
        with locked(out):
            fresh.mkdir(0o700)
            number = hold(fresh, wait=False)
        yield fresh
    finally:
        # after an exchange the old folder lies here, and is not the one that is held
        shutil.rmtree(fresh, ignore_errors=True)
        if number is not None:
            os.close(number)


def put(fresh: Path, target: Path) -> None:
    """Put `fresh` in the place of `target`; the old folder then lies at `fresh`, if there was one.

    The caller holds the folder above. Raises OSError; both are as they were then.
    """
    if not target.exists():
        fresh.rename(target)
    elif not exchanged(fresh, target):
        _in_two_steps(fresh, target)


def exchanged(one: Path, other: Path) -> bool:
    """Exchange two folders in one step; False, and nothing done, where the system cannot."""
    if sys.platform != "linux":
        return False
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    names = (os.fsencode(one), os.fsencode(other))
    return bool(call(AT_FDCWD, names[0], AT_FDCWD, names[1], RENAME_EXCHANGE) == 0)


def _in_two_steps(fresh: Path, target: Path) -> None:
    slug = target.name
    old = Path(tempfile.mkdtemp(prefix=f".isolator-old.{slug}.", dir=target.parent))
    try:
        target.rename(old / slug)
        fresh.rename(target)
    except BaseException:
        if not target.exists() and (old / slug).exists():
            (old / slug).rename(target)
        raise
    finally:
        if target.exists():
            shutil.rmtree(old, ignore_errors=True)


def mend(out: Path) -> None:
    """Put right what runs that were killed left in `out`: old folders back, leftovers gone."""
    if not out.is_dir() or not any(HIDDEN.fullmatch(path.name) for path in out.iterdir()):
        return
    with locked(out):
        for path in sorted(out.iterdir()):
            found = HIDDEN.fullmatch(path.name)
            if found is None or path.is_symlink() or not path.is_dir():
                continue
            kind, slug = found.groups()
            if kind == "old" and not (out / slug).exists() and (path / slug).is_dir():
                (path / slug).rename(out / slug)
            if kind == "old" or _abandoned(path):
                shutil.rmtree(path, ignore_errors=True)


def _abandoned(folder: Path) -> bool:
    """Return whether the run that made a hidden folder is over."""
    number = hold(folder, wait=False)
    if number is not None:
        os.close(number)
        return True
    return time.time() - folder.stat().st_mtime > ABANDONED
