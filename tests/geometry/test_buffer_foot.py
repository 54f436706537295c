"""The foot on a ready-made mount: plates and mount, measured by means that did not draw them."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations, product

import pytest
from pairwise import spread
from sheets import PRINT, foot

from geometry.assembly import placed
from geometry.draw import foot_parts
from geometry.feet.bought import bought_bodies, on_mount
from geometry.feet.buffer_foot import mount_solid, mount_solids
from geometry.solids.part import CannotDraw, Placement, mm
from geometry.solids.verify import bounds, verify
from isolator.design import ATTACHMENTS, BUFFER, Ends, Foot, Pad
from isolator.design.ends import PLAIN, heights, plate_width

BESIDE = tuple(name for name, row in ATTACHMENTS.items() if row.where != "cap")
PAIRS = (
    ("thread", "thread"),
    ("stud", "stud"),
    ("thread", "stud"),
    ("stud", "thread"),
    ("thread", "plain"),
    ("stud", "plain"),
)
SIZES = {  # diameter, height, rubber, thread, stud, depth [mm]; no two numbers alike
    "small": (8.3, 8.1, 5.9, 3.0, 6.2, 3.7),
    "usual": (20.4, 15.2, 11.1, 6.0, 17.8, 6.3),
    "large": (50.6, 39.7, 33.6, 10.0, 27.4, 9.9),
}


def buffer_foot(attachment: str, size: str, pair: tuple[str, str], tread: bool = False) -> Foot:
    wide, high, rubber, thread, stud, depth = (each / 1e3 for each in SIZES[size])
    upper, lower = pair
    ends = Ends(
        thread=thread,
        upper=upper,
        lower=lower,
        stud=stud if "stud" in pair else 0.0,
        depth=depth if "thread" in pair else 0.0,
    )
    rubber = rubber if lower != PLAIN else round((high + rubber) / 2.0, 9)
    like = foot("cup", "disc", attachment, "large" if size == "large" else "usual")
    cap, sole = heights(ends, PRINT.layer)
    least = 0.0182  # as wide as a slot screw's ear
    wall = math.ceil((max(plate_width(ends, wide, 1.5e-4), least) - wide) / 2.0 / 5e-4) * 5e-4
    return replace(
        like,
        kind="buffer",
        pad=Pad(
            shape=BUFFER,
            first=wide,
            second=rubber,
            thickness=high,
            layers=1,
            material="nr-buffer-55",
            printed=False,
        ),
        cap=max(cap, like.cap),
        sole=sole,
        wall=max(wall, 0.0),
        side_room=0.0,
        stop=0.0,
        sag=0.0007,
        label="",
        tread=0.0018 if tread and sole > 0 else 0.0,
        ends=ends,
    )


@pytest.mark.parametrize(
    ("attachment", "size", "upper", "lower"), spread(product(BESIDE, SIZES, PAIRS), of=1)
)
def test_every_foot_on_a_mount_is_sound_and_stands_as_told(
    attachment: str, size: str, upper: str, lower: str
) -> None:
    one = buffer_foot(attachment, size, (upper, lower), tread=True)
    parts = {part.role: part for part in foot_parts(one, PRINT)}
    under = set() if lower == "plain" else {"sole", "tread"}
    assert set(parts) == {"plate"} | under
    for part in parts.values():
        figures = verify(part, PRINT)  # raises where box, volume, wall or overhang are not as told
        assert figures.volume == pytest.approx(part.volume, rel=1e-5)  # kernel integrates to 1e-6
        assert figures.overhang == 0.0
        assert figures.bridge == 0.0
    mount, stands = mount_solid(one), {}
    for role, part in parts.items():
        there = part.places[0]
        stands[role] = placed(part.solid, Placement(x=0, y=0, z=there.z, turned=there.turned))
    assert mount.isValid()
    top = mm(one.cap)
    assert bounds(stands["plate"])[2::3] == pytest.approx((-top, 0.0), abs=1e-6)
    lowest = min(bounds(each)[2] for each in (mount, *stands.values()))
    assert lowest == pytest.approx(-mm(one.height), abs=1e-6)
    rubber = mount_solids(one)[0]
    low, high = bounds(rubber)[2::3]
    assert high - low == pytest.approx(mm(one.pad.second), abs=1e-6)
    # what is solved is what is drawn: the elastic centre lies in the middle of the rubber
    assert -high == pytest.approx(mm(one.over_rubber), abs=1e-6)
    area = math.pi / 4.0 * mm(one.pad.first) ** 2
    assert rubber.Volume() == pytest.approx(area * mm(one.pad.second), rel=1e-6)
    # nothing stands in anything else, and nothing out of the plates' faces
    screwed = [solid for each in on_mount(one, PRINT) for solid in each.solids]
    for a, b in combinations((*stands.values(), *screwed), 2):
        assert a.intersect(b).Volume() == pytest.approx(0.0, abs=1e-6)
    for solid in stands.values():
        assert solid.intersect(mount).Volume() == pytest.approx(0.0, abs=1e-6)
    for solid in (mount, *screwed):
        assert bounds(solid)[5] < 0.0
    if "tread" not in stands:
        return
    desk = bounds(stands["sole"])[2]
    assert all(bounds(solid)[2] > desk for solid in (mount, *screwed))


def test_the_plate_has_the_volume_worked_by_hand() -> None:
    plate, sole = foot_parts(buffer_foot("adhesive", "usual", ("thread", "stud")), PRINT)
    # mm: plates 20.4 across, chamfer 0.3; hole 6.6 + 0.15; head 10.5 + 0.6 + 0.15
    outside, c, hole, head = 10.2, 0.3, 3.375, 5.625
    floor, cap = 2.8, 6.6  # 8 mm of screw less 5.3 of thread, in layers; head 3.3 and 0.4 over it
    edge = math.pi * (outside * c**2 - c**3 / 3)
    mouth = math.pi * (hole * 0.6**2 + 0.6**3 / 3)  # opens towards the bed by 0.6 at 45°
    by_hand = math.pi * (outside**2 * cap - hole**2 * floor - head**2 * (cap - floor))
    assert plate.solid.Volume() == pytest.approx(by_hand - edge - mouth, rel=1e-6)
    # the nut: 10 mm across flats with 0.2 of fit and 0.15; it ends 1 mm under the stud's end
    flats, floor, high = 10.35, 11.6, 18.2
    hexagon = math.sqrt(3) / 2 * flats**2
    by_hand = math.pi * (outside**2 * high - hole**2 * floor) - hexagon * (high - floor)
    assert sole.solid.Volume() == pytest.approx(by_hand - edge - mouth, rel=1e-6)


def test_a_slot_plate_guides_with_its_key_and_all_is_bought_once() -> None:
    one = replace(buffer_foot("slot-30", "usual", ("thread", "thread")), key=0.008)
    parts = {part.role: part for part in foot_parts(one, PRINT)}
    assert set(parts) == {"plate", "key", "sole"}
    for part in parts.values():
        verify(part, PRINT)
    found = bought_bodies(one, PRINT)
    copies = len(one.positions)
    # two slot screws, two slot nuts, a screw above and one below
    assert len(found) == 6 * copies
    assert [body.role for body in found].count("screw") == 4 * copies


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"cap": 0.0031}, "corner-plate: cap: 3.1 mm cannot hide the screw; 6.6 mm can"),
        ({"sole": 0.012}, "corner-sole: sole: 12 mm cannot hide the screw; 18.2 mm can"),
        ({"sole": 0.0, "tread": 0.0}, "corner-sole: sole: 0 mm: the mount's lower end needs one"),
        ({"ends": None}, "corner: ends: a foot on a mount needs what the mount ends in"),
        (
            {"attachment": "bolt", "bolt": 0.005},
            "corner-plate: attachment: bolt stands where the buffer's own screw is",
        ),
    ],
)
def test_what_cannot_be_is_refused(change: dict[str, object], said: str) -> None:
    one = replace(buffer_foot("adhesive", "usual", ("thread", "stud")), **change)  # type: ignore[arg-type]
    with pytest.raises(CannotDraw) as caught:
        foot_parts(one, PRINT)
    assert str(caught.value) == said
