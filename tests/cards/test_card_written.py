"""Cards written as files read back as the same cards."""

from __future__ import annotations

import dataclasses

import pytest

from isolator.cards import ideal_rubber, load_cards
from isolator.cards.reader import read_card
from isolator.cards.write import card_text

CARDS = load_cards()


@pytest.mark.parametrize("ident", CARDS)
def test_every_shipped_card_reads_back_as_it_was(ident: str) -> None:
    card = CARDS[ident]
    again = read_card(card_text(card), card_id=ident, file=f"{ident}.toml", shared={})
    for each in dataclasses.fields(card):
        first, second = getattr(card, each.name), getattr(again, each.name)
        if each.name == "sources":
            first, second = sorted(first), sorted(second)
        if isinstance(first, float):
            first, second = pytest.approx(first, rel=1e-4), second
        if each.name == "youngs_modulus" and card.curve is not None:
            assert second.value == pytest.approx(first.value, rel=1e-4)
            continue
        assert second == first, each.name


def test_odd_texts_keep_their_signs() -> None:
    odd = dataclasses.replace(ideal_rubber(2e6), name='30 % "soft" \\ grün', note="")
    again = read_card(card_text(odd), card_id="odd", file="odd.toml", shared={})
    assert again.name == odd.name
