"""What the search takes: more stock never does worse, nothing is replaced by worse, little changes
nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest

from isolator.brief import Brief, read_brief_text
from isolator.cards import load_cards
from isolator.commands.design import solve
from isolator.commands.known_cards import known_cards
from isolator.commands.search import FoundFeet, best_feet, in_reach
from isolator.commands.trial import Search
from isolator.feet.candidates import candidates
from isolator.feet.checks import QUIETER
from isolator.feet.kinds import KEEP, KINDS, kind_of
from isolator.feet.ranking import EQUAL_DB, score
from isolator.feet.task import build_feet_task
from isolator.reading.faults import InputError
from isolator.report.findings import Alternative
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand

CARDS = load_cards()


def text_of(
    mass: float, layout: str, speeds: tuple[float, ...], desk: str, size: float = 0.42
) -> str:
    """Return the brief of a plain printer: mass [kg], speeds [mm/s], table top, width [m]."""
    told = "" if desk == "rigid" else f'[desk]\nmaterial = "{desk}"\n'
    each = ", ".join(f'"{speed:g} mm/s"' for speed in speeds)
    return f"""
name = "Printer of {mass:g} kg"
[printer]
mass = "{mass:g} kg"
size = ["{1e3 * size:g} mm", "{1e3 * size:g} mm", "{1.1e3 * size:g} mm"]
[motion]
layout = "{layout}"
speeds = [{each}]
acceleration = "1500 mm/s^2"
{_motors(layout, size)}
[feet]
attachment = "adhesive"
{told}
[stock]
widths = ["14 mm", "60 mm", "4 mm"]
"""


def _motors(layout: str, size: float) -> str:
    names = {
        "crossed-belt": ("left", "right"),
        "motor-per-axis": ("x", "y"),
        "moving-bed": ("x", "y"),
    }
    high = round(0.9e3 * size)
    motors = []
    for name, side in zip(names[layout], (-1, 1), strict=True):
        at = f'["{side * 400 * size:g} mm", "150 mm", "{high} mm"]'
        motors.append(f'[[motor]]\nname = "{name}"\nposition = {at}')
    return "\n".join(motors)


PRINTERS: Mapping[str, tuple[float, str, tuple[float, ...], str, float]] = {
    "light": (4.0, "moving-bed", (20, 60), "chipboard", 0.30),
    "small": (6.0, "motor-per-axis", (40, 100), "rigid", 0.35),
    "usual": (9.0, "crossed-belt", (60, 150), "mdf", 0.42),
    "bed": (8.0, "moving-bed", (30, 80), "solid-wood", 0.38),
    "heavy": (15.0, "crossed-belt", (80, 250), "mdf", 0.45),
    "cube": (22.0, "motor-per-axis", (50, 200), "chipboard", 0.5),
    "fast": (18.0, "crossed-belt", (150, 300), "solid-wood", 0.48),
    "large": (35.0, "moving-bed", (40, 120), "mdf", 0.6),
    "very large": (60.0, "crossed-belt", (60, 200), "chipboard", 0.7),
    "slow": (7.0, "motor-per-axis", (20, 40), "mdf", 0.36),
    "on stone": (12.0, "crossed-belt", (60, 120), "rigid", 0.44),
    "tall": (11.0, "motor-per-axis", (50, 120), "rigid", 0.40),
}


def printer(name: str, more: str = "") -> Brief:
    return read_brief_text(text_of(*PRINTERS[name]) + more, "plain.toml")


def silent(what: str, done: int, total: int) -> None:
    """Tell nobody how far it is."""


def searched(brief: Brief) -> tuple[Search, FoundFeet]:
    cards = known_cards(brief)
    installation = build_installation(brief, cards)
    task = build_feet_task(brief)
    search = Search(
        task=task,
        installation=installation,
        offered=candidates(task, cards),
        baseline=build_now_stand(brief, cards) or installation.bumpers,
    )
    return search, best_feet(search, silent)


def best_score(brief: Brief) -> float:
    search, found = searched(brief)
    return float(found.ranked.score[in_reach(search, found.screened, found.ranked)].max())


def stocked(brief: Brief, **changed: object) -> Brief:
    return replace(brief, stock=replace(brief.stock, **changed))  # type: ignore[arg-type]


def test_more_stock_more_feet_and_finer_steps_never_score_worse() -> None:
    brief = stocked(
        printer("usual"),
        materials=("nr-60", "eva-100", "nr-buffer-55"),
        shapes=("disc",),
        max_layers=1,
    )
    least = best_score(brief)
    for more in (
        stocked(brief, materials=("nr-60", "eva-100", "sponge-1", "tpu-85-gyroid-15")),
        stocked(brief, shapes=("disc", "buffer")),
        stocked(brief, shapes=("disc", "rectangle")),
        stocked(brief, max_layers=3),
        stocked(brief, widths=(0.014, 0.06, 0.002)),
        replace(brief, feet=replace(brief.feet, count=(4, 6))),
    ):
        # of finer steps the ranking sees the best by the screen, near enough
        assert best_score(more) >= least - 0.1


def test_every_kind_has_its_best_and_any_can_be_picked() -> None:
    brief = stocked(printer("usual"), shapes=("disc",))
    found = solve(brief, CARDS, silent)
    kinds = {each.kind for each in found.alternatives}
    assert {"rubber", "foam", "printed"} <= kinds <= set(KINDS)
    assert [each.chosen for each in found.alternatives].count(True) == 1
    assert found.alternatives[0].chosen
    assert found.design is not None
    picked = solve(brief, CARDS, silent, "printed")
    assert picked.design is not None
    assert CARDS[picked.design.feet[0].pad.material].family == "printed"
    assert picked.alternatives[0].kind == "printed"


def test_good_feet_that_are_there_are_kept() -> None:
    brief = stocked(printer("usual"), materials=("nr-60", "nr-70"), shapes=("disc",), max_layers=1)
    now = '\n[feet.now]\nmaterial = "sponge-3"\nsize = ["40 mm"]\nthickness = "10 mm"\n'
    sponge = printer("usual", now)
    kept = replace(brief, feet=replace(brief.feet, now=sponge.feet.now))
    found = solve(kept, CARDS, silent)
    assert found.kept
    assert found.design is None
    assert found.answer[0].startswith("Keep the feet that are there: nothing in the stock")
    assert found.alternatives[0].kind == KEEP
    assert found.alternatives[0].chosen
    (quieter,) = [each for each in found.checks if each.name == QUIETER]
    assert (quieter.value, quieter.passed) == (0.0, True)
    # whoever asks for others gets them, and is told that they are louder
    other = solve(kept, CARDS, silent, "rubber")
    assert not other.kept
    assert other.design is not None
    assert not other.passed


def nudged(brief: Brief) -> list[Brief]:
    """Return the brief with a little more and less mass, speed and warmth."""
    body, motion, room = brief.printer, brief.motion, brief.room
    return [
        *(replace(brief, printer=replace(body, mass=body.mass * by)) for by in (0.97, 1.03)),
        *(
            replace(brief, motion=replace(motion, speeds=tuple(by * v for v in motion.speeds)))
            for by in (0.98, 1.02)
        ),
        *(
            replace(
                brief,
                room=replace(
                    room,
                    temperature_low=room.temperature_low + by,
                    temperature_high=room.temperature_high + by,
                ),
            )
            for by in (-2.0, 2.0)
        ),
    ]


def what(search: Search, found: FoundFeet) -> tuple[str, str]:
    batch = search.offered[found.screened.batch[found.choice.index]]
    return batch.material.id, batch.shape


def at_stake(search: Search, found: FoundFeet, wanted: tuple[str, str]) -> float:
    """Return how much is lost [dB(A)] by a material and an outline: all, where none holds."""
    within = found.ranked.take(in_reach(search, found.screened, found.ranked))
    own = [
        (
            search.offered[found.screened.batch[index]].material.id,
            search.offered[found.screened.batch[index]].shape,
        )
        == wanted
        for index in within.index
    ]
    if not any(own):
        return np.inf
    return float(within.score.max() - within.score[own].max())


def score_of(told: Alternative, brief: Brief) -> float:
    low = np.array([[-each.high for each in told.heard]])
    return float(score(low, brief.limits.least_gain_db)[0])


@pytest.mark.slow
@pytest.mark.parametrize("name", PRINTERS)
def test_what_holds_of_every_printer(name: str) -> None:
    brief = stocked(printer(name), shapes=("disc", "square-with-hole"))
    found = solve(brief, known_cards(brief), silent)
    heard = [speed.heard for speed in found.chosen.speeds]
    assert all(heard)
    worst = max(each.desk.high for each in heard if each is not None)
    # never louder under a pass, at any speed asked for
    assert not found.passed or worst <= 1e-6
    if found.design is None:
        return
    assert sum(len(foot.positions) for foot in found.design.feet) == 4
    # quieter as speeds grow past the modes
    over = found.chosen.heard_over
    assert over is not None
    fast, slow = over.nominal[over.speed > 0.15].mean(), over.nominal[over.speed < 0.02].mean()
    assert fast <= slow + 0.5
    # no other kind is heard a decibel less at the louder end, unless it sways too far
    chosen, *others = found.alternatives
    assert chosen.chosen
    for each in others:
        if each.sway <= brief.limits.sway:
            assert score_of(each, brief) <= score_of(chosen, brief) + EQUAL_DB + 0.05


@pytest.mark.slow
def test_a_small_change_of_the_brief_keeps_material_and_outline() -> None:
    """Where what is easier comes within a decibel of the best, it is taken: an edge somewhere."""
    looked, moved = 0, []
    for name in PRINTERS:
        brief = stocked(printer(name), shapes=("disc", "square-with-hole"))
        before = what(*searched(brief))
        for near in nudged(brief):
            looked += 1
            there, again = searched(near)
            if what(there, again) != before and at_stake(there, again, before) < EQUAL_DB:
                moved.append((name, before, what(there, again)))
    assert looked == 72
    # a third of the printers lie near such an edge at most, and one change in nine crosses it
    assert len({name for name, *_ in moved}) <= 4, moved
    assert len(moved) <= 8, moved


def test_kinds_are_told_apart() -> None:
    brief = stocked(printer("usual"), materials=("nr-60", "pe-30", "tpu-85-solid"))
    offered = candidates(build_feet_task(brief), CARDS)
    assert {kind_of(batch) for batch in offered} == {"rubber", "foam", "printed"}


def refusal(brief: Brief, pick: str) -> tuple[str, str, str, str]:
    with pytest.raises(InputError) as refused:
        solve(brief, CARDS, silent, pick)
    (fault,) = refused.value.faults
    return fault.key, fault.got, fault.wanted, fault.suggestion


@pytest.mark.parametrize("asked", ["pick", "prefer"])
def test_feet_that_nobody_told_of_cannot_be_kept(asked: str) -> None:
    brief = stocked(printer("usual"), **({"prefer": KEEP} if asked == "prefer" else {}))
    assert refusal(brief, KEEP if asked == "pick" else "") == (
        "feet.now",
        "nothing",
        "the feet there now",
        "tell them under [feet.now], or ask for feet of another kind than keep",
    )


def test_feet_that_fail_a_check_cannot_be_kept() -> None:
    now = '\n[feet.now]\nmaterial = "sponge-3"\nsize = ["40 mm"]\nthickness = "10 mm"\n'
    brief = printer("usual", f'{now}[limits]\nsway = "0.05 mm"\n')
    assert refusal(brief, KEEP) == (
        "feet.now",
        "feet that fail: sway",
        "feet that hold every check",
        "look at them with isolator check --now, or ask for feet of another kind than keep",
    )
