"""A loss beyond the promise ceiling never leaves as a bare number."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from command import example, isolator

from isolator.report.json.values import mark_promised

NOW = '\n[feet.now]\nmaterial = "sponge-3"\nshape = "disc"\nsize = ["42 mm"]\nthickness = "13 mm"\n'
HEARD = ("heard_change_db", "heard_over")
"""Changes, which end at the brief's own ceiling by themselves."""
NO_LOSSES = ("ripple_db", "detent_db", "promised_up_to_db", *HEARD)


def losses(told: Any) -> Iterator[tuple[dict[str, Any], str, Any]]:
    """Yield every object that holds a loss, with the loss's key and value."""
    if isinstance(told, dict):
        for key, value in told.items():
            if key.endswith("_db") and key not in NO_LOSSES:
                yield told, key, value
            elif key not in ("promised", *HEARD):
                yield from losses(value)
    if isinstance(told, list):
        for each in told:
            yield from losses(each)


@pytest.mark.parametrize(("limit", "frame"), [(2, "open"), (12, "rigid"), (60, "open")])
def test_every_loss_says_whether_it_is_promised(tmp_path: Path, limit: int, frame: str) -> None:
    text = example("reading-room").replace("[limits]", f"[limits]\npromise_ceiling_db = {limit}")
    brief = tmp_path / "brief.toml"
    if "[frame]" not in text:
        text += f'\n[frame]\nkind = "{frame}"\n'
    brief.write_text(text + ("" if "[feet.now]" in text else NOW), encoding="utf-8")
    assert f"promise_ceiling_db = {limit}" in brief.read_text(encoding="utf-8")
    told = isolator("check", brief, "--json", "--out", tmp_path).json()
    ceiling = told["promised_up_to_db"]
    # a frame that bends ends it earlier
    assert ceiling == limit if frame == "rigid" else 0 <= ceiling < limit
    count = 0
    for holder, key, value in losses(told):
        count += 1
        if isinstance(value, dict):
            ends = [value["low"], value["nominal"], value["high"]]
            assert value["promised"] is all(each is not None and each <= ceiling for each in ends)
        else:
            assert holder["promised"][key] is (value <= ceiling)
    assert count > 50


def test_what_is_not_known_is_not_promised() -> None:
    told = {"on_desk_db": None, "insertion_loss_db": 31.0, "x": [{"feet_loss_db": {"low": 29.0}}]}
    mark_promised(told, 30.0)
    assert told["promised"] == {"on_desk_db": False, "insertion_loss_db": False}
    assert told["x"] == [{"feet_loss_db": {"low": 29.0, "promised": True}}]
