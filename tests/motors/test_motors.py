"""Whole motors: a mirrored printer, a motor without a belt, what a plate and a wish do."""

from __future__ import annotations

import re
from dataclasses import replace
from importlib import resources

import pytest

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.motors.candidates import damper_batches
from isolator.motors.confirm import TRIES
from isolator.motors.dampers import MountedMotors, best_dampers
from isolator.motors.results import MotorResult
from isolator.motors.task import build_motor_task
from isolator.motors.whole import Whole
from isolator.report.sentences.dampers import motor_sentences
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.printer import build_printer

TEXT = (resources.files("isolator.examples") / "reading-room.toml").read_text(encoding="utf-8")


def mounted(text: str) -> dict[str, MotorResult]:
    brief, cards = read_brief_text(text, "brief.toml"), load_cards()
    stand = build_now_stand(brief, cards)
    assert stand is not None
    found = best_dampers(build_motor_task(brief), build_printer(brief), cards, stand)
    return {each.name: each for each in found.results}


def mounted_so(more: str = "", **wish: object) -> MountedMotors:
    brief, cards = read_brief_text(TEXT + more, "brief.toml"), load_cards()
    stand = build_now_stand(brief, cards)
    assert stand is not None
    task = build_motor_task(brief)
    return best_dampers(task, build_printer(brief), cards, stand, **wish)  # type: ignore[arg-type]


def test_what_is_heard_on_dampers_at_another_speed_is_told_at_that_speed() -> None:
    """One of the brief's speeds asked alone is told as among all; another by itself."""
    speeds = read_brief_text(TEXT, "brief.toml").motion.speeds
    all_of, one = mounted_so().whole, mounted_so(asked=(speeds[-1], 0.135)).whole
    assert all_of is not None
    assert one is not None
    assert one.speeds == (speeds[-1], 0.135)
    assert one.frame[0].nominal == pytest.approx(all_of.frame[-1].nominal, abs=0.1)  # grids
    assert one.desk[0, 0] == pytest.approx(all_of.desk[0, -1], abs=0.1)
    assert one.frame[1].nominal != pytest.approx(one.frame[0].nominal, abs=1e-3)


def test_dampers_that_spoil_a_speed_are_left_out_and_it_is_said() -> None:
    found = mounted_so(spoils=lambda whole: whole.speeds[:1])
    assert found.dampers == ()
    assert found.whole is None
    speed = read_brief_text(TEXT, "brief.toml").motion.speeds[0]
    for motor in found.results:
        assert motor.without is not None
        assert (motor.without.cause, motor.without.spoiled) == ("spoils", (speed,))
        assert motor_sentences(motor)[0] == (
            f"No damper under motor {motor.name}: with it the printer may be louder than before at "
            f"{speed * 1e3:g} mm/s, where the feet alone are not."
        )


def test_where_a_damper_spoils_a_speed_the_next_is_tried_a_few_times(all_samples: None) -> None:
    firm = "[damper]\nbelt_ring = 0.9\n"  # of stiff ones several hold
    first = mounted_so(firm)

    def again(times: int) -> tuple[MountedMotors, int]:
        asked: list[float] = []

        def spoils(whole: Whole) -> tuple[float, ...]:
            asked.append(float(whole.desk[0, 0]))
            return whole.speeds[:1] if len(asked) <= times else ()

        return mounted_so(firm, spoils=spoils), len(asked)

    second, asked = again(1)
    assert asked == 2
    assert second.whole is not None
    assert first.whole is not None
    assert len(second.dampers) == len(first.dampers) == 2
    assert second.dampers != first.dampers
    assert second.whole.desk[:, 0].max() < first.whole.desk[:, 0].max()
    none, asked = again(100)
    assert asked == 1 + TRIES
    assert none.dampers == ()
    for was, motor in zip(first.results, none.results, strict=True):
        assert motor.without is not None
        assert motor.without.cause == "spoils"
        # what it would gain and cost is told of the first
        assert was.damper is not None
        assert motor.without.offer is not None
        assert motor.without.offer.stack_height == was.stack_height
        assert motor.without.offer.rubber == was.damper.rubber


def mirrored(text: str) -> str:
    """Return the printer as a mirror at its left shows it: x turned round, belts swapped."""

    def turned(found: re.Match[str]) -> str:
        return f'{found[1]}"{-float(found[2]):g} mm"'

    text = re.sub(r'((?:position|center_of_mass) = \[)"(-?[\d.]+) mm"', turned, text)
    text = re.sub(r"pull = \[(-?[\d.]+)", lambda found: f"pull = [{-float(found[1]):g}", text)
    text = text.replace('"0.004 kg*m^2", "-0.012 kg*m^2"', '"-0.004 kg*m^2", "0.012 kg*m^2"')
    tables = re.split(r"(?m)^(?=\[)", text)
    first, second = (at for at, table in enumerate(tables) if table.startswith("[[motor]]"))
    tables[first], tables[second] = tables[second], tables[first]
    return "".join(tables)


def test_a_mirrored_printer_gets_mirrored_dampers() -> None:
    text = TEXT + '\n[damper]\nmaterials = ["nr-50"]\n'
    there, back = mounted(text), mounted(mirrored(text))
    for name, motor in there.items():
        other = back[name]
        assert motor.damper is not None
        assert other.damper is not None
        assert other.tilt == pytest.approx(motor.tilt, rel=1e-12)
        lines = {(x.source, x.speed): x for x in other.damper.lines}
        assert lines
        for line in motor.damper.lines:
            twin = lines[line.source, line.speed]
            assert twin.both.nominal == pytest.approx(line.both.nominal, abs=1e-9)
            assert twin.damper.low == pytest.approx(line.damper.low, abs=1e-9)
            # in the mirror a move at ψ is one at 180° − ψ; a peak lies between two directions
            assert twin.worst.frequency == pytest.approx(line.worst.frequency, rel=2e-3)


@pytest.mark.parametrize("cast", [False, True])
def test_dampers_are_of_what_can_be_poured_or_cut(cast: bool) -> None:
    cards = load_cards()
    stock = read_brief_text(TEXT, "brief.toml").damper
    found = {
        batch.material.id for batch in damper_batches(replace(stock, cast=cast), 17, 2e-4, cards)
    }
    rubbers = {card.id for card in cards.values() if card.family == "rubber"}
    poured = {"vmq-20", "vmq-30", "vmq-40", "pu-cast-40"}
    moulded = {card.id for card in cards.values() if card.supply.ready}  # sold as buffers alone
    assert found == (poured if cast else rubbers - moulded - {"pu-cast-40"})


def test_a_motor_that_drives_no_belt_stays_bolted() -> None:
    third = '\n[[motor]]\nname = "lift"\nposition = ["0 mm", "0 mm", "50 mm"]\n'
    found = mounted(TEXT + third)["lift"]
    assert found.kind == "none"
    assert (
        motor_sentences(found)[0]
        == "No damper under motor lift: it drives no belt that is looked at."
    )


def test_a_wish_is_kept_and_its_failing_checks_are_told() -> None:
    slow = re.sub(r"(?m)^speeds = .*$", 'speeds = ["15 mm/s", "60 mm/s"]', TEXT)
    slow = slow.replace("microsteps = 16", "microsteps = 256")
    plain = mounted(slow)["left"]
    assert plain.kind == "none"
    assert motor_sentences(plain)[0] == (
        "No damper under motor left: every one may make a speed that you print at louder through "
        "its bracket."
    )
    wished = mounted(slow.replace("pull = [0.8, -1, 0]", 'damper = "always"'))["left"]
    assert wished.kind == "damper"
    assert [check.name for check in wished.checks if check.binding and not check.passed] == [
        "quieter through the bracket of left",
    ]
    short = re.sub(r"(?m)^shaft_length = .*$", 'shaft_length = "12 mm"', slow)
    none = mounted(short.replace("pull = [0.8, -1, 0]", 'damper = "always"'))["left"]
    assert (none.kind, [check.name for check in none.checks]) == ("none", ["a damper for left"])
