"""One run at a time in a folder: a lock on the folder itself, which goes with the run."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

if sys.platform != "win32":
    import fcntl


@contextmanager
def locked(folder: Path) -> Iterator[bool]:
    """Wait until no other run holds `folder`, then hold it; give whether it is held.

    Not every system and not every disk can: nothing is held there, and the caller looks again.
    """
    number = hold(folder, wait=True)
    try:
        yield number is not None
    finally:
        if number is not None:
            os.close(number)


def hold(folder: Path, *, wait: bool) -> int | None:
    """Return an open file number that holds `folder` until it is closed or the run ends.

    None where it cannot be held: another run holds it (without `wait`), or the system cannot.
    """
    if sys.platform == "win32":
        return None
    try:
        number = os.open(folder, os.O_RDONLY | os.O_CLOEXEC)
    except OSError:
        return None
    try:
        fcntl.flock(number, fcntl.LOCK_EX if wait else fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(number)
        return None
    except BaseException:
        os.close(number)
        raise
    return number
