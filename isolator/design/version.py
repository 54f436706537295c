"""The version of this program, which every sheet and report names."""

from __future__ import annotations

from importlib.metadata import PackageNotFoundError
from importlib.metadata import version as installed_version


def version() -> str:
    """Return the version of this program."""
    try:
        return installed_version("isolator")
    except PackageNotFoundError:  # run from a checkout that is not installed
        return "0+checkout"
