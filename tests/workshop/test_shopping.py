"""What has to be bought: nested sheet, screws, what is owned."""

from __future__ import annotations

import csv
import io
import math
from dataclasses import replace

import pytest
from briefs import faults
from hypothesis import given
from hypothesis import strategies as st
from sheets import damper, design, foot

from isolator.brief import Owned, read_brief_text
from isolator.brief.starter import starter_text
from isolator.cards import load_cards
from isolator.design import COVER, FLOOR, Slab, least_cap
from isolator.design.attachment import SPARE
from isolator.design.filaments import RIGID
from isolator.design.nesting import KNIFE, nested
from isolator.design.screw_lengths import screw_length
from isolator.design.screws import kept_lengths
from isolator.workshop.damper_hardware import WIRE_LENGTH
from isolator.workshop.glue_kinds import (
    EPOXY,
    HYBRID,
    NAMED,
    SILICONE,
    TOUGH,
    glue_kind,
    surface,
)
from isolator.workshop.sheets import Cut, least, sheet_rows
from isolator.workshop.shopping import Item, shopping_csv, shopping_items, unmatched

UNUSUAL = ", though no usual thickness: ask for it"
SIZES = st.floats(4e-3, 80e-3)


@given(width=SIZES, depth=SIZES, count=st.integers(1, 40))
def test_pads_find_room_in_the_sheet_told(width, depth, count) -> None:
    nest = nested(width, depth, count, KNIFE)
    sides = (nest.wide, nest.high)
    across, along = (
        int((side - KNIFE + 1e-9) // (pad + KNIFE))
        for side, pad in zip(sides, (width, depth), strict=True)
    )
    assert across * along >= count
    assert sides[0] * sides[1] > count * width * depth
    # no worse than one long strip
    strip = (count * (width + KNIFE) + KNIFE) * (depth + 2 * KNIFE)
    assert sides[0] * sides[1] <= strip * (1 + 1e-9)


def test_nine_pads_lie_three_by_three() -> None:
    nest = nested(0.02, 0.03, 9, KNIFE)
    assert (nest.wide, nest.high) == pytest.approx((0.068, 0.098))


def printed(material: str, mass: float | None, quantity: int, volume: float, share=1.0) -> dict:
    """Return what a manifest tells of a part, `share` of whose volume is filament."""
    return {
        "material": material,
        "print_mass_kg": mass,
        "quantity": quantity,
        "volume_m3": volume,
        "filament_m3": share * volume,
    }


def manifest(one) -> dict:
    pad = one.pad
    return {
        "pads": [
            {
                "name": "foot-pad",
                "material": pad.material,
                "quantity": 4 * pad.layers,
                "area_m2": 1e-4,
                "layer_thickness_m": pad.thickness / pad.layers,
            }
        ],
        "parts": [
            printed("petg", 0.0051, 4, 4e-6),
            printed("petg", 0.0012, 2, 1e-6),
            printed("unheard-of", None, 2, 1e-6),
        ],
    }


def listed(attachment: str, owned: tuple[Owned, ...] = ()) -> dict[str, Item]:
    one = replace(foot("cup", "disc", attachment, "usual"), name="foot", bolt=0.0)
    items = shopping_items(design(one), manifest(one), owned)
    return {each.name: each for each in items}


def test_slot_feet_take_screws_of_a_sold_length_and_nuts_for_their_slot() -> None:
    found = listed("slot-30")
    one = foot("cup", "disc", "slot-30", "usual")
    count = 2 * len(one.positions)
    (screw,) = [name for name in found if name.startswith("screw M6 x ")]
    length = float(screw.split(" x ")[1].split(",")[0]) * 1e-3
    # flange, profile beside the slot, three fifths of the thread's diameter in the nut; and not
    # to the ground of a slot 9 mm deep
    assert one.cap + 2.2e-3 + 0.6 * 6e-3 <= length + 1e-9
    assert length <= one.cap + 9e-3
    assert found[screw].quantity == found["slot nut M6 for 30 mm extrusion"].quantity == count


HARDWARE = {
    "slot-20": {"screw M5 x 10, button head, ISO 7380-1", "slot nut M5 for 20 mm extrusion"},
    "tapped-end": {"screw M5 x 10, button head, ISO 7380-1"},
    "bolt": {"screw M6 x 16, hexagon head, ISO 4017", "nut M6, ISO 4032", "washer M6, ISO 7089"},
    "two-bolts": {
        "screw M5 x 16, button head, ISO 7380-1",
        "nut M5, ISO 4032",
        "washer M5, ISO 7089",
    },
    "tube-end": {"screw M5 x 20, hexagon head, ISO 4017", "nut M5, ISO 4032"},
    "rod-end": {"screw M5 x 12, hexagon head, ISO 4017"},
    "panel": {
        "screw M5 x 16, hexagon head, ISO 4017",
        "nut M5, ISO 4032",
        "large washer M5, ISO 7093",
    },
    "self-tapping": {"self-tapping screw ST3.5 x 13, pan head, ISO 7049"},
    "stud": {
        "screw M8 x 35, hexagon head, ISO 4017",
        "nut M8, ISO 4032",
        "thin nut M8, ISO 4035",
        "washer M8, ISO 7089",
    },
    "holes": {"screw M4 x 14, button head, ISO 7380-1", "nut M4, ISO 4032", "washer M4, ISO 7089"},
    "adhesive": {"double-sided acrylic tape"},
}


@pytest.mark.parametrize("attachment", HARDWARE)
def test_every_attachment_lists_its_own_hardware(attachment: str) -> None:
    """Lengths by hand for a frame of 3.7 mm: heads and floors as in the sheet, nut and two turns.

    bolt M6: 2.4 + 3.7 + 1.8 + 5.2 + 2.0 = 15.1; two-bolts M5: 3.4 + 3.7 + 1.1 + 4.7 + 1.6 = 14.5;
    panel M5: 2.6 + 3.7 + 1.1 + 4.7 + 1.6 = 13.7; tube-end M5: 2.5 + 18.3 − 0.5 − 4.7 + 4.0 =
    19.6; rod-end M5: 2.5 + 7.5 to 12.5; stud M8: 2.6 + 1.8 + 6.8 + 5.0 + 4.0 + 1.8 + 5.0 + 3.7 =
    30.7; slot-20 M5: 4.0 + 1.8 + 3.0 = 8.8 to 10.2. Plastic 11.7 mm thick takes ST3.5 from
    3.4 + 7.0 to 14.6.
    """
    grip = 0.0117 if attachment == "self-tapping" else 0.0037
    one = replace(foot("cup", "disc", attachment, "usual"), name="foot", grip=grip)
    if attachment == "slot-20":
        one = replace(one, cap=0.004)  # of 3.4 mm no sold length grips without bottoming
    found = {each.name for each in shopping_items(design(one), manifest(one))}
    extra = {each for each in found if not each.startswith("glue,")}
    extra -= {"petg filament", "sheet of cr-sponge, 6.2 mm, 90 x 178 mm or more"}
    assert extra == HARDWARE[attachment]


def test_screws_from_above_never_push_the_cover_off() -> None:
    for fixing, thread, washer in (
        ("nut", 0.005, 0.0011),
        ("insert", 0.005, 0.0011),
        ("direct", 0.004, 0.0009),
        ("insert", 0.006, 0.0018),
    ):
        for grip in (0.0021, 0.0043, 0.0088):
            cap = least_cap("bolt", thread, 0.0, 2e-4, fixing=fixing)
            one = replace(
                foot("cup", "disc", "bolt", "usual"), fixing=fixing, bolt=thread, grip=grip, cap=cap
            )
            length = screw_length(one)
            assert length is not None
            # the recess ends a cover's thickness before the pocket; a direct hole at its depth
            room = 2.5 * thread + SPARE if fixing == "direct" else cap - COVER
            held = 1.5 * thread if fixing == "direct" else FLOOR + 0.6 * thread
            assert held - 1e-9 <= length - grip - washer <= room + 1e-9


def test_plastic_too_thin_for_any_sold_screw_is_told() -> None:
    one = replace(foot("cup", "disc", "self-tapping", "usual"), name="foot", grip=0.0037)
    (screw,) = [
        each for each in shopping_items(design(one), manifest(one)) if "self-tapping" in each.name
    ]
    assert screw.name == "self-tapping screw ST3.5, pan head, ISO 7049"
    assert screw.remark == "none sold holds in 3.7 mm of plastic without coming through"


def test_one_line_for_all_that_is_cut_from_one_sheet() -> None:
    kinds = [
        replace(
            foot("cup", "disc", "adhesive", "usual"),
            name=f"foot-{letter}",
            pad=replace(foot("cup", "disc", "adhesive", "usual").pad, first=width),
        )
        for letter, width in (("a", 0.031), ("b", 0.027))
    ]
    pads = [
        {**manifest(one)["pads"][0], "name": f"{one.name}-pad", "quantity": n}
        for one, n in zip(kinds, (1, 2), strict=True)
    ]
    found = [
        each
        for each in shopping_items(design(*kinds), {"pads": pads, "parts": []})
        if "sheet" in each.name
    ]
    # 31 + 4 mm square and (27 + 4) × (2 · 27 + 3 · 2) mm, one over the other
    assert [each.name for each in found] == ["sheet of cr-sponge, 6.2 mm, 35 x 95 mm or more"]
    assert (found[0].quantity, found[0].unit) == (1.0, "pieces")
    assert found[0].remark == (
        "1 piece, cut from 35 x 35 mm in rows 2 mm apart; "
        "2 pieces, cut from 31 x 60 mm in rows 2 mm apart"
    )


@pytest.mark.parametrize(
    ("size", "count", "thick", "name", "pieces", "more"),
    [
        # 12 of 40 × 60 mm: 3 × 4 of them take 128 × 250 mm
        ((0.040, 0.060), 12, 0.006, "6 mm, 200 x 300 mm", 1, ""),
        # 3 × 7 of them find room on the smallest sheet
        ((0.040, 0.060), 21, 0.006, "6 mm, 200 x 300 mm", 1, ""),
        ((0.040, 0.060), 22, 0.006, "6 mm, 200 x 300 mm", 2, ""),
        # four small sheets of 2 × 2 waste less than one of 500 × 500 mm, five do not
        ((0.090, 0.120), 16, 0.010, "10 mm, 200 x 300 mm", 4, ""),
        ((0.090, 0.120), 17, 0.010, "10 mm, 500 x 500 mm", 1, ""),
        ((0.180, 0.180), 3, 0.010, "10 mm, 200 x 300 mm", 3, ""),
        ((0.600, 1.200), 1, 0.010, "10 mm, 604 x 1204 mm or more", 1, ""),
        (
            (0.040, 0.060),
            1,
            0.007,
            "7 mm, 200 x 300 mm",
            1,
            UNUSUAL,
        ),
    ],
)
def test_sheets_are_pieces_that_can_be_ordered(
    size: tuple[float, float], count: int, thick: float, name: str, pieces: int, more: str
) -> None:
    """nr-70 lies in hardware shops as 200 × 300, 500 × 500 and 500 × 1000 mm, as its card says."""
    pad = {"material": "nr-70", "layer_thickness_m": thick, "quantity": count}
    (row,) = sheet_rows([pad], [size], load_cards())
    assert row[:3] == (f"sheet of natural rubber, 70 Shore A, {name}", str(pieces), "pieces")
    assert row[3].startswith(f"{count} piece")
    assert row[3].endswith(f"; got: hardware shop{more}")


@given(
    sizes=st.lists(st.tuples(SIZES, SIZES, st.integers(1, 30)), min_size=1, max_size=3),
    sheets=st.lists(st.tuples(st.floats(0.1, 0.4), st.floats(0.4, 1.0)), min_size=1, max_size=3),
)
def test_pads_find_room_on_the_pieces_that_are_bought(sizes, sheets) -> None:
    cuts = [Cut(*each) for each in sizes]
    found = least(cuts, sheets)
    assert found is not None  # the largest pad fits the smallest sheet
    pieces, sheet = found
    assert pieces * sheet[0] * sheet[1] >= sum(cut.wide * cut.deep * cut.count for cut in cuts)
    # never more than a sheet a pad would be
    assert pieces * sheet[0] * sheet[1] <= min(
        sum(cut.count for cut in cuts) * one * other for one, other in sheets
    ) * (1 + 1e-9)


def test_glue_is_listed_for_each_pair_of_materials_with_its_joints() -> None:
    one = replace(foot("cup", "ring", "slot-20", "usual"), name="foot", tread=0.0012)
    sheet = design(one, dampers=(damper(shape="pads"),))
    found = {each.name: each.remark for each in shopping_items(sheet, manifest(one))}
    # 3 feet, ring 44/23 mm: 11.051 cm² a face; two faces, one joint of layers; a tread under the
    # sole, 51.48 mm across
    # 4 rubber pads between two plates
    pad = sheet.motor_dampers[0]
    rubber = math.ceil(2 * 4 * pad.first * pad.second * 1e4)
    assert {name: remark for name, remark in found.items() if name.startswith("glue")} == {
        "glue, contact adhesive of chloroprene": "cr-sponge to petg, 67 cm^2; cr-sponge to "
        f"cr-sponge, 34 cm^2; nr-40 to asa, {rubber} cm^2; at a motor its maker must name 80 °C or "
        "more; roughen and degrease both faces, coat both, wait as its tin says, press once",
        "glue, rubber-toughened cyanoacrylate": "tpu-95 to petg, 63 cm^2; roughen both faces, "
        "press at once, no more than a film",
    }


def test_every_material_of_the_shelf_has_a_kind_of_glue_for_whatever_it_meets() -> None:
    """Common practice, no source: silicone is held by silicone alone, stone by a thick paste."""
    for ident, card in load_cards().items():
        for other in (ident, "petg", "asa", "slab"):
            assert glue_kind(ident, other) is not NAMED, (ident, other)
            assert glue_kind(ident, other) is glue_kind(other, ident)
        assert (glue_kind(ident, "petg") is SILICONE) == ident.startswith("vmq-")
        assert (glue_kind(ident, "slab") is HYBRID) == (surface(ident) in ("rubber", "flexible"))
        if card.family == "printed":
            assert glue_kind(ident, "petg") is TOUGH
    for rigid in RIGID:
        assert glue_kind(rigid, rigid) is glue_kind(rigid, "petg") is EPOXY
    assert glue_kind("of-my-own", "petg") is NAMED


def test_small_joints_are_listed_too() -> None:
    keyed = replace(foot("cup", "disc", "slot-20", "usual"), name="foot", key=0.006)
    found = {each.name: each.remark for each in shopping_items(design(keyed), manifest(keyed))}
    assert found["glue, two-part epoxy"] == (
        "petg to petg, a drop on each slot key; roughen and degrease both faces, clamp until it "
        "has cured"
    )
    plugged = listed("tube-end")
    assert "petg to metal, each plug" in plugged["glue, two-part epoxy"].remark


def test_a_slab_without_a_lip_asks_for_a_sheet_that_does_not_slip() -> None:
    one = replace(foot("cup", "disc", "adhesive", "usual"), kind="bare", name="foot")
    slab = Slab(size=(0.447, 0.462, 0.0413), position=(0.0, 0.0), gap=0.0, lip=0.006)
    paste = "glue, construction adhesive of silane-modified polymer"
    for lip, extra in ((0.006, set()), (0.0, {"anti-slip sheet"})):
        sheet = replace(design(one), slab=replace(slab, lip=lip))
        found = {each.name: each for each in shopping_items(sheet, {"pads": [], "parts": []})}
        assert set(found) == {
            "slab 447 x 462 x 41.3 mm",
            "glue, contact adhesive of chloroprene",
            paste,
            *extra,
        }
        assert ("petg to slab, the printed corners" in found[paste].remark) == (lip > 0)


def test_filament_is_told_in_grams_and_metres() -> None:
    petg = listed("adhesive")["petg filament"]
    assert petg.quantity == pytest.approx(4 * 5.1 + 2 * 1.2)
    # 18 cm3 over the area of 1.75 mm
    assert petg.remark == (
        "7.5 m of 1.75 mm, printed solid; brims and what is wiped off come on top"
    )
    assert "unheard-of filament" not in listed("adhesive")


def test_filament_is_bought_by_its_kind_whatever_it_is_printed_as() -> None:
    one = foot("cup", "disc", "adhesive", "usual")
    named = {"tpu-95-gyroid-15": 0.5, "tpu-95": 1.0, "tpu-85-solid": 1.0}
    parts = [printed(name, 0.005, 2, 4e-6, share) for name, share in named.items()]
    items = shopping_items(design(one), {"pads": [], "parts": parts})
    found = {item.name: item for item in items if item.unit == "g"}
    told = {name: item.quantity for name, item in found.items()}
    assert told == pytest.approx({"tpu-95 filament": 20.0, "tpu-85 filament": 10.0})
    # 2 × (half of 4 cm3 and 4 cm3) over the area of 1.75 mm
    assert found["tpu-95 filament"].remark == (
        "5.0 m of 1.75 mm, printed with the infill that its parts ask for; brims and what is "
        "wiped off come on top"
    )
    assert "printed solid" in found["tpu-85 filament"].remark


def test_no_screw_thicker_than_m4_has_a_length_that_shops_do_not_keep() -> None:
    for thread in (0.005, 0.006, 0.008, 0.01):
        assert not {0.014, 0.018, 0.022} & set(kept_lengths(thread))
    for grip in (0.0021, 0.0043, 0.0063, 0.0081, 0.0102, 0.0127):
        for attachment in ("bolt", "two-bolts", "panel"):
            one = replace(foot("cup", "disc", attachment, "usual"), bolt=0.005, grip=grip)
            assert screw_length(one) in kept_lengths(0.005)


def test_a_cover_is_glued_into_its_cup_print_to_print() -> None:
    hidden = listed("bolt")
    assert hidden["glue, two-part epoxy"].remark.startswith("petg to petg, ")
    assert "glue, two-part epoxy" not in listed("slot-20")


def test_bonding_wire_is_bought_by_length() -> None:
    one = foot("cup", "disc", "adhesive", "usual")
    sheet = design(one, dampers=(damper(shape="pads"),))
    (wire,) = [x for x in shopping_items(sheet, {"pads": [], "parts": []}) if "wire" in x.name]
    assert (wire.quantity, wire.unit) == (WIRE_LENGTH, "m")


def test_what_is_owned_is_taken_off_and_never_below_nothing() -> None:
    owned = (
        Owned(item="PETG filament", quantity=1000.0),
        Owned(item="nut M6, ISO 4032", quantity=1.0),
        Owned(item="nut M6 ISO 4032", quantity=3.0),
    )
    found = listed("bolt", owned)
    assert found["petg filament"].to_buy == 0.0
    nut = found["nut M6, ISO 4032"]
    assert nut.to_buy == nut.quantity - 1.0 > 0
    (told,) = unmatched(list(found.values()), owned)
    assert told == (
        '"nut M6 ISO 4032", which you own, is on no line of the list; did you mean '
        '"nut M6, ISO 4032"?'
    )
    row = next(
        row
        for row in csv.DictReader(io.StringIO(shopping_csv(list(found.values()))))
        if row["item"] == "nut M6, ISO 4032"
    )
    assert (row["owned"], row["to buy"]) == ("1", f"{nut.quantity - 1:.0f}")


def test_quantities_are_never_told_smaller_than_they_are() -> None:
    one = Item(name="sheet", quantity=10.01, unit="cm^2", remark="", owned=2.0)
    assert one.shown(one.to_buy) == "9"


def test_what_is_owned_is_read_from_the_brief() -> None:
    text = starter_text() + '\n[[stock.owned]]\nitem = "petg filament"\nquantity = 250\n'
    assert read_brief_text(text, "b").stock.owned == (Owned(item="petg filament", quantity=250.0),)
    wrong = starter_text() + '\n[[stock.owned]]\nitem = "petg filament"\nquantity = "250 g"\n'
    assert faults(wrong) == [
        'brief.toml: stock.owned[1].quantity: found "250 g"; wanted a plain number from 0 to '
        "1e+06; write it bare, without quotes or unit"
    ]


@pytest.mark.parametrize("name", ["=1+2", "+1", "-1", "@sum", "\tx"])
def test_no_cell_begins_a_formula(name: str) -> None:
    item = Item(name=name, quantity=1.0, unit="pieces", remark=f"{name} too")
    (row,) = list(csv.reader(io.StringIO(shopping_csv([item]))))[1:]
    assert row == [f"'{name}", "1", "pieces", f"'{name} too", "0", "1"]
