"""Steps of assembly: each tells its own hardware, in an order that can be followed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import damper, design, foot, spacer

from isolator.design import ATTACHMENTS, BALL, Foot, Pad, Slab, least_cap
from isolator.report.sentences.cautions import of_step
from isolator.workshop.assembly import assembly_steps
from isolator.workshop.shopping import shopping_items
from isolator.workshop.step import Step

NAMES = {
    "cr-sponge": "CR sponge",
    "tpu-85": "TPU, 85 Shore A",
    "nr-40": "Natural rubber, 40 Shore A",
    "vmq-40": "Silicone",
}
OWN = {
    "slot-20": "slot nut",
    "slot-30": "slot nut",
    "slot-40": "slot nut",
    "tapped-end": "tapped bore",
    "tube-end": "plug",
    "rod-end": "socket",
    "panel": "large washer",
    "self-tapping": "self-tapping",
    "stud": "thin nut",
    "holes": "old feet's holes",
    "adhesive": "tape",
    "bolt": "through the frame",
    "two-bolts": "through the frame",
}
"""What only the words for one attachment name."""


def built(kind: str, attachment: str, fixing: str = "screw", **changes: object) -> Foot:
    one = foot("printed" if kind == "printed" else "cup", "disc", attachment, "usual")
    pad = Pad(
        shape=BALL,
        first=0.041,
        second=0.0302,
        thickness=0.0205,
        layers=1,
        material="nr-40",
        printed=False,
    )
    if kind == "ball":
        one = replace(one, kind="ball", pad=pad, sole=0.0)
    cap = least_cap(attachment, one.bolt, one.tube, 2e-4, fixing=fixing)
    return replace(one, fixing=fixing, cap=max(one.cap, cap), **changes)


def told(*feet: Foot, **beside: object) -> tuple[Step, ...]:
    return assembly_steps(design(*feet, **beside), NAMES)


def text(steps: tuple[Step, ...]) -> str:
    return " ".join(line for step in steps for line in (step.title, *step.words, *step.uses))


@pytest.mark.parametrize("kind", ["cup", "printed", "ball"])
@pytest.mark.parametrize("attachment", ATTACHMENTS)
def test_every_foot_is_told_with_its_own_hardware_and_no_other_s(attachment, kind) -> None:
    one = built(kind, attachment)
    steps = told(one)
    words = text(steps)
    named = {mark for mark in OWN.values() if mark in words}
    assert named == {OWN[attachment]}
    # every bought thing that holds the foot goes into one step, whole
    listed = {
        f"{each.shown(each.quantity)} × {each.name}"
        if each.unit == "pieces"
        else f"{each.shown(each.quantity)} cm² of {each.name}"
        for each in shopping_items(design(one), {"pads": [], "parts": []})
        if not each.name.startswith(("rubber ball", "glue"))
    }
    used = [each for step in steps for each in step.uses]
    assert len(used) == len(set(used))
    assert listed <= set(used) or attachment == "adhesive"
    for step in steps:
        assert step.words
        assert sum(line.count(". ") + 1 for line in step.words) <= 6, step.title


@pytest.mark.parametrize("kind", ["cup", "printed", "ball"])
@pytest.mark.parametrize("attachment", ATTACHMENTS)
def test_nothing_is_hidden_before_it_is_fixed_nor_loaded_before_it_is_cured(
    attachment, kind
) -> None:
    titles = [step.title for step in told(built(kind, attachment, tread=0.0012))]
    fixed, last = titles.index("Fix the feet to the frame"), titles[-1]
    assert titles.index("Turn the printer over") == fixed - 1
    glued = [n for n, title in enumerate(titles) if title.startswith(("Glue", "Close"))]
    put_in = ("Set the inserts", "Press", "Screw the", "Lay the screws", "Clamp")
    laid = [n for n, title in enumerate(titles) if title.startswith(put_in)]
    # only a screw that is driven through the pocket wants its foot at the frame before its pad
    assert all((n > fixed) == (attachment == "tapped-end") for n in glued)
    assert all(n < fixed - 1 for n in laid)
    assert not laid or not glued or max(laid) < min(glued)
    stands_up = ATTACHMENTS[attachment].way in ("captive", "stud", "plug", "socket")
    assert bool(laid) == stands_up
    assert last == "Set it down and try it"


@pytest.mark.parametrize(
    ("fixing", "bench", "others"),
    [
        ("insert", "threaded insert", ("hexagon",)),
        ("nut", "hexagon", ("insert",)),
        ("direct", "cuts its own thread", ("insert", "hexagon", "its head into")),
    ],
)
def test_what_a_cap_holds_is_put_in_on_the_bench(fixing, bench, others) -> None:
    steps = told(built("cup", "bolt", fixing, bolt=0.005))
    words = text(steps)
    assert bench in words
    assert not any(other in words for other in others)
    assert "from above" in words
    # a thread in the cap itself leaves nothing to put in or to close
    put_in = {step.hardware for step in steps} & {"held", "standing"}
    assert put_in == (set() if fixing == "direct" else {"held"})
    assert any(step.title == "Close the recess" for step in steps) == (fixing != "direct")
    burns = [step.title for step in steps if any("burn" in line for line in of_step(step))]
    assert burns == (["Set the inserts"] if fixing == "insert" else [])


def test_cautions_stand_where_they_apply() -> None:
    steps = {step.title: " ".join(of_step(step)) for step in told(built("cup", "stud"))}
    assert "discharged" in steps["Turn the printer over"]
    assert "Two people" in steps["Turn the printer over"]
    assert "children" in steps["Set it down and try it"]
    assert steps["Fix the feet to the frame"] == ""
    assert not any("motor" in line for title, line in steps.items() if "Turn" not in title)
    damped = {step.title: " ".join(of_step(step)) for step in told(dampers=(damper(),))}
    assert "power on" in damped["Take motor left off"]
    assert "no protective earth" in damped["Bond motor left"]


def test_feet_with_pads_of_their_own_are_told_to_their_places() -> None:
    one = built("cup", "slot-20", name="foot-a")
    places = ((-0.181, -0.192), (0.183, -0.194), (0.18, 0.177), (-0.179, 0.175))
    smaller = replace(one.pad, first=0.0371)
    first = replace(one, positions=(places[0], places[2]))
    second = replace(one, name="foot-b", pad=smaller, positions=(places[1], places[3]))
    steps = told(first, second)
    words = text(steps)
    assert "Mark every pad with its letter. A: 2 × a disc 42 mm across" in words
    assert "B: 2 × a disc 37.1 mm across" in words
    assert (
        "Each foot has its own place: A stands front left, back right; B stands front right, back "
        "left."
    ) in words
    assert words.count("Fix the feet to the frame") == 1  # they are fixed alike, and told once
    assert "8 × slot nut M5 for 20 mm extrusion" in words
    other = replace(second, attachment="bolt", cap=0.0082)
    titles = [step.title for step in told(first, other)]
    assert "Fix the feet to the frame: foot-a" in titles
    assert "Fix the feet to the frame: foot-b" in titles
    assert titles.count("Turn the printer over") == 1


def test_under_a_slab_pads_are_glued_by_the_plan_and_the_lip_comes_last() -> None:
    one = foot("cup", "disc", "adhesive", "usual")
    bare = replace(one, kind="bare", sole=0.0, wall=0.0, side_room=0.0, stop=0.0)
    slab = Slab(size=(0.447, 0.462, 0.0413), position=(0.0, 0.0), gap=0.0, lip=0.006)
    steps = assembly_steps(replace(design(bare), slab=slab), NAMES)
    assert [step.title for step in steps] == [
        "Print and cut",
        "Glue the pads under the slab",
        "Glue the corners on",
        "Set it down and try it",
    ]
    assert all("two people" in " ".join(of_step(step)) for step in steps[1:3])
    plain = assembly_steps(replace(design(bare), slab=replace(slab, lip=0.0)), NAMES)
    assert [step.title for step in plain][:2] == ["Cut", "Glue the pads under the slab"]
    assert "Print the plates" not in text(plain)


def test_screws_of_a_damper_go_in_before_it_is_glued_and_the_bond_before_the_damper() -> None:
    """The key's holes let no head through, and a frame screw stands over the bond's corner."""
    titles = [step.title for step in told(dampers=(damper(), replace(damper(), name="right")))]
    assert titles == [
        "Print and cut",
        "Glue the dampers",
        "Take motors left and right off",
        "Bond motors left and right",
        "Screw the dampers to the motors",
        "Screw the dampers to the brackets",
        "Put pulleys back on their spacers",
        "Tension the belts",
        "Try it",
    ]
    glue = told(dampers=(damper(),))[1]
    assert glue.uses == (
        "2 × screw M3 x 6, button head, ISO 7380-1",
        "2 × screw M3 x 14, hexagon head, ISO 4017",
    )
    assert "wedge" not in text(told(dampers=(damper(),)))
    assert "wedge" in text(told(dampers=(damper(wedge=True),)))
    plain = told(spacers=(spacer(),))
    assert "5.2 mm under motor left" in text(plain)
    assert "rubber" not in text(plain)


def test_cast_rubber_is_weighed_and_poured_before_it_is_glued() -> None:
    cast = replace(damper(17, "pads"), cast=True, material="vmq-40", density=1150.0)
    titles = {step.title: step for step in told(dampers=(cast, replace(cast, name="right")))}
    assert list(titles)[:3] == ["Print", "Cast the rubber", "Glue the dampers"]
    pour = titles["Cast the rubber"]
    # four pads, a fifth over for the spill, 1.15 g/cm³
    grams = 1.15 * 1.2 * 4 * cast.first * cast.second * cast.rubber * 1e6
    assert f"together {grams:.1f} g of silicone for each of motors left, right;" in " ".join(
        pour.words
    )
    assert "gloves" in " ".join(of_step(pour))
    assert "Cast" not in text(told(dampers=(damper(),)))


def test_whole_words_of_a_levelling_stud() -> None:
    steps = {step.title: step for step in told(built("cup", "stud"))}
    assert steps["Clamp the studs"].words == (
        "Put the screw up through each cup from the pad's side, a washer and a nut on it, and "
        "tighten them onto the cup: its head must not move in the recess.",
    )
    assert steps["Clamp the studs"].uses == (
        "3 × screw M8, hexagon head, ISO 4017",
        "3 × nut M8, ISO 4032",
        "6 × washer M8, ISO 7089",
    )
    fixed = steps["Fix the feet to the frame"]
    assert fixed.words == (
        "Turn a thin nut and a second washer on, then the whole foot up into the frame's thread; "
        "leave 5 mm between the nuts to level with. The thin nut stays loose until the printer "
        "stands level, then it is locked at the frame.",
    )
    assert fixed.uses == ("3 × foot as glued", "3 × thin nut M8, ISO 4035")


def test_a_design_of_nothing_has_no_steps() -> None:
    assert told() == ()
