"""One whole design of the shipped example, made once and looked at by many tests."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pytest
from command import Ran, isolator


class Shipped(NamedTuple):
    """The shipped example as designed."""

    ran: Ran
    out: Path
    folder: Path


@pytest.fixture(scope="session")
def shipped(tmp_path_factory: pytest.TempPathFactory) -> Shipped:
    out = tmp_path_factory.mktemp("shipped") / "out"
    ran = isolator("design", "--out", out)
    return Shipped(ran, out, out / "reading-room-printer")
