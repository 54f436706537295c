"""The libraries kept quiet and out of the user's home."""

from __future__ import annotations

import atexit
import gc
import logging
import os
import sys
import warnings
from collections.abc import Iterator
from contextlib import contextmanager

CACHES = ("MPLCONFIGDIR", "XDG_CACHE_HOME")
"""Variables that say where the plotting library and others keep their caches."""
MEMORY = {-3: 32 << 20, -1: 256 << 20}
"""What glibc's mallopt is told: up to which size memory is kept at all (M_MMAP_THRESHOLD), and how
much of it (M_TRIM_THRESHOLD) [bytes]."""


@contextmanager
def quiet_libraries() -> Iterator[None]:
    """Let no library warn on standard error or keep a cache in the user's home.

    Warnings that were asked for, with `python -W`, still come.
    """
    folder = _cache_folder()
    for name in CACHES:
        os.environ[name] = folder
    with warnings.catch_warnings():
        hush()
        yield


def hush() -> None:
    """Let no library warn from now on, unless warnings were asked for."""
    logger = logging.getLogger()
    if not logger.handlers:
        logger.addHandler(logging.NullHandler())  # else warnings go to standard error
    if not sys.warnoptions:
        warnings.simplefilter("ignore")


def few_collections() -> None:
    """Look for cycles among objects less often than usual.

    A command lives for seconds and makes many small objects; it would take a tenth of its time, and
    another quarter of a second at its end, when the system takes everything back anyway.
    """
    gc.set_threshold(100_000, 20, 50)
    atexit.register(gc.freeze)


def keep_memory() -> None:
    """Keep memory that arrays have left for those that come next, where the system's library can.

    Groups of samples take and leave some megabytes each; to give these back and get them cleared
    again takes a twentieth of a design's time.
    """
    if sys.platform != "linux":
        return
    try:
        import ctypes

        option = ctypes.CDLL(None).mallopt
    except (ImportError, OSError, AttributeError):
        return  # an interpreter built without, or a library with rules of its own
    for name, size in MEMORY.items():
        option(name, size)


def _cache_folder() -> str:
    """Return a temporary folder that only this user can write to, the same for every run."""
    import tempfile

    user = os.getuid() if hasattr(os, "getuid") else 0
    folder = os.path.join(tempfile.gettempdir(), f"isolator-cache-{user}")
    try:
        os.makedirs(folder, mode=0o700, exist_ok=True)
        there = os.lstat(folder)
        if (there.st_uid, there.st_mode & 0o170077) == (user, 0o040000):
            return folder
    except OSError:
        pass
    # somebody else's, or a file: a folder for this run alone
    import shutil

    own = tempfile.mkdtemp(prefix="isolator-cache-")
    atexit.register(shutil.rmtree, own, ignore_errors=True)
    return own
