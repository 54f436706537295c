"""What tests of whole commands share: a design made once, a squash test, a recording of taps."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest
from command import Ran, isolator
from recorded import G, lines, text
from squashed import csv, foam_piece, off, piece, readings
from taps_made import TWO

from isolator.cards import load_cards

LIGHT = [0, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]


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


@pytest.fixture
def foam_csv(tmp_path: Path) -> Path:
    told = piece(family="foam", first=0.040, thickness=0.020)
    rng = np.random.default_rng(8)
    found = readings(
        foam_piece(off(told, rng), load_cards()["sponge-2"]), LIGHT, rng, height=0.0203
    )
    path = tmp_path / "foam.csv"
    path.write_text(csv(found), encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def taps(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Four taps as z, y, x in g, times in milliseconds."""
    file = tmp_path_factory.mktemp("taps") / "four taps.csv"
    time, samples = TWO.tapped(seed=4)
    x, y, z = samples.T / G
    file.write_text(text("time_ms;az (g);ay (g);ax (g)", lines((time * 1e3, z, y, x), ";", 7)))
    return file
