"""Card and plot of `isolator squash`: what they replace, and that both come or neither."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from command import tree
from squash_words import FOAM, squash

from isolator.cards import load_cards

CARDS = load_cards()


def test_only_a_card_of_a_squash_test_that_nobody_edited_is_replaced(
    foam_csv: Path, tmp_path: Path
) -> None:
    assert squash(foam_csv, FOAM, tmp_path).code == 0
    card = tmp_path / "cards" / "own-foam.toml"
    first = card.read_bytes()
    assert squash(foam_csv, FOAM, tmp_path).code == 0
    assert card.read_bytes() == first
    mine = first.replace(b"Own squash test, own-foam", b"The grey one")
    card.write_bytes(mine)
    ran = squash(foam_csv, FOAM, tmp_path)
    assert (ran.code, ran.err) == (
        2,
        f"{card}: found a card that was edited since; wanted a place of its own for the card; "
        "choose another --id, or move it away\n",
    )
    card.write_text("mine", encoding="utf-8")
    assert squash(foam_csv, FOAM, tmp_path).code == 2
    assert card.read_text(encoding="utf-8") == "mine"


def test_only_a_plot_of_a_squash_test_that_nobody_edited_is_replaced(
    foam_csv: Path, tmp_path: Path
) -> None:
    assert squash(foam_csv, FOAM, tmp_path).code == 0
    card, plot = (tmp_path / "cards" / f"own-foam.{end}" for end in ("toml", "svg"))
    first = card.read_bytes()
    told = {
        "mine": "something that no squash test wrote",
        plot.read_text(encoding="utf-8").replace("#", "##"): "a plot that was edited since",
    }
    for text, got in told.items():
        plot.write_text(text, encoding="utf-8")
        ran = squash(foam_csv, f"{FOAM} --temperature 30degC", tmp_path)
        assert (ran.code, ran.err) == (
            2,
            f"{plot}: found {got}; wanted a place of its own for the card; choose another --id, or "
            "move it away\n",
        )
        assert (card.read_bytes(), plot.read_text(encoding="utf-8")) == (first, text)
    card.unlink()
    assert squash(foam_csv, FOAM, tmp_path).code == 2
    assert not card.exists()


def test_card_and_plot_come_together_or_not_at_all(
    foam_csv: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk fails as the second of the two is put in place."""
    replace = os.replace
    put: list[Path] = []

    def fail(made: Path, file: Path) -> None:
        if len(put) % 2:
            put.clear()
            raise OSError(28, "No space left on device")
        put.append(file)
        replace(made, file)

    monkeypatch.setattr(os, "replace", fail)
    cards = tmp_path / "cards"
    ran = squash(foam_csv, FOAM, tmp_path)
    assert (ran.code, ran.err) == (
        2,
        f"{cards / 'own-foam.toml'}: found no space left on device; wanted a place that can be "
        "written to; choose another --out\n",
    )
    assert list(cards.iterdir()) == []
    monkeypatch.undo()
    assert squash(foam_csv, FOAM, tmp_path).code == 0
    before = tree(cards)
    monkeypatch.setattr(os, "replace", fail)
    assert squash(foam_csv, f"{FOAM} --temperature 30degC", tmp_path).code == 2
    assert tree(cards) == before
