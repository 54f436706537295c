"""How many of 1000 fresh samples lie in the bands that are told, and how wide the bands are."""

from __future__ import annotations

import pytest
from band_coverage import PRINTERS, coverage

pytestmark = [pytest.mark.bench, pytest.mark.usefixtures("all_samples")]


@pytest.mark.parametrize("name", PRINTERS)
def test_coverage(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    rows = coverage(name)
    least, widest = min(row.share for row in rows), max(row.width for row in rows)
    with capsys.disabled():
        print(
            f"\n{name}: {len(rows)} bands, {least:.3f} inside at least, {widest:.2f} wide at most"
        )
    assert least > 0.85
