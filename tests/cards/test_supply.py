"""Where materials are got, and in which sheets: every card says it, as its rows do."""

from __future__ import annotations

from pathlib import Path

import pytest

from isolator.cards import Material, Supply, load_cards
from isolator.cards.reader import read_card
from isolator.cards.rows import card_rows
from isolator.design.got import FOUND
from isolator.reading.faults import InputError

CARDS = load_cards()
SHELF = Path(__file__).parents[2] / "materials"
SUPPLY = """[supply]
found = "hardware shop"
sheets = ["1.5 mm", "2 mm", "3 mm", "4 mm", "5 mm", "6 mm", "8 mm", "10 mm", "12 mm", "15 mm", \
"20 mm"]
sizes = [["200 mm", "300 mm"], ["500 mm", "500 mm"], ["500 mm", "1000 mm"]]
kind = "estimated"
source = "trade"
""".replace("\\\n", "")


def own(supply: str) -> Material:
    """Return the hardest natural rubber with another table of supply."""
    text = (SHELF / "rubber" / "nr-70.toml").read_text(encoding="utf-8")
    assert SUPPLY in text
    return read_card(
        text.replace(SUPPLY, supply),
        card_id="own",
        file="own.toml",
        shared=dict(CARDS["nr-70"].sources),
    )


@pytest.mark.parametrize("card", CARDS.values(), ids=list(CARDS))
def test_every_card_says_where_it_is_got_and_in_which_sheets(card: Material) -> None:
    supply = card.supply
    assert supply.found in FOUND
    assert supply.source in dict(card.sources)
    assert (supply.found == "printed") == (card.family == "printed")
    # sheets are sold in sizes; what is printed, only poured or moulded comes in none
    bought = card.in_sheets and card.family != "printed"
    assert bool(supply.sheets) == bool(supply.sizes) == bought
    assert supply.sheets == tuple(sorted(set(supply.sheets)))
    assert all(0.1 <= short <= long <= 2.0 for short, long in supply.sizes)


def test_each_place_has_its_cards_and_its_rank() -> None:
    assert {card.supply.found for card in CARDS.values()} == set(FOUND)
    # common practice, no source: thick butyl is a dealer's, craft foam lies in a shop
    ranks = [CARDS[ident].supply.rank for ident in ("tpu-95-solid", "nr-70", "eva-100", "pe-45")]
    ranks += [CARDS[ident].supply.rank for ident in ("sponge-2", "iir-50")]
    assert ranks == [0, 1, 2, 3, 4, 5]
    assert max(CARDS["iir-50"].supply.sheets) == 0.01


def test_a_card_tells_its_supply() -> None:
    rows = [tuple(row) for row in card_rows(CARDS["nr-70"])][-3:]
    assert rows == [
        ("where it is got", "hardware shop", "", "estimated", "trade"),
        (
            "sold as sheets of",
            "1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20 mm",
            "",
            "estimated",
            "trade",
        ),
        ("sheets measure", "200 × 300, 500 × 500, 500 × 1000 mm", "", "estimated", "trade"),
    ]


def test_a_card_without_the_table_is_ordered_in_sheets_nobody_knows() -> None:
    card = own("")
    assert card.supply == Supply()
    assert (card.supply.found, card.supply.rank, card.thicknesses) == ("ordered", 5, ())
    assert not any(row.label == "where it is got" for row in card_rows(card))


@pytest.mark.parametrize(
    ("supply", "told"),
    [
        (
            '[stock]\nthicknesses = ["5 mm"]\nkind = "estimated"\nsource = "trade"\n',
            "stock: found it typed; wanted none: a material's sheets stand beside where it is got; "
            "write [supply] with found, sheets (the thicknesses), kind, source",
        ),
        (
            SUPPLY.replace("hardware shop", "harware shop"),
            'supply.found: found "harware shop"; wanted one of printed, hardware shop, craft shop, '
            'sports shop, specialist online, ordered; did you mean "hardware shop"?',
        ),
        (
            SUPPLY.replace("hardware shop", "printed"),
            'supply.found: found "printed"; wanted where it is bought; no rubber is printed',
        ),
        (
            SUPPLY.replace('["500 mm", "500 mm"]', '"500 mm"'),
            'supply.sizes[1]: found "500 mm"; wanted the two sides of a sheet; '
            'such as ["200 mm", "300 mm"]',
        ),
        (
            SUPPLY.replace('["500 mm", "500 mm"]', '["5 mm", "500 mm"]'),
            'supply.sizes[1]: found "5 mm"; wanted from 0.02 to 20 m; such as "300 mm"',
        ),
        (
            SUPPLY.replace('source = "trade"\n', ""),
            "supply.source: found nothing; wanted the key of a source; "
            "no number without kind and source: say where it is from",
        ),
    ],
)
def test_a_supply_that_cannot_be_meant_is_refused(supply: str, told: str) -> None:
    with pytest.raises(InputError) as caught:
        own(supply)
    assert str(caught.value) == f"own.toml: {told}"
