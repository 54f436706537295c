"""A paver is tried where a speed stays poor, found as if its keys were typed, and told as one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from isolator.brief import Brief, read_brief_text
from isolator.cards import load_cards
from isolator.commands import design as job
from isolator.commands.check import MOST_SPEEDS, assess
from isolator.commands.design import solve
from isolator.commands.paver import (
    OVERHANG,
    SIDES,
    UnderPaver,
    is_poor,
    paver_keys,
    paver_of,
    under_paver,
    weighing,
    with_paver,
)
from isolator.commands.remedies import of_paver
from isolator.commands.search import best_feet, offered_feet
from isolator.commands.to_design import to_design
from isolator.commands.trial import ChosenFeet, Search, failing, judged
from isolator.feet.checks import QUIETER
from isolator.feet.kinds import SLAB
from isolator.feet.task import build_feet_task
from isolator.reading.changes import Change
from isolator.reading.faults import InputError
from isolator.report.findings import Findings, Remedy
from isolator.report.json.result import to_json
from isolator.report.sentences.folds import choice
from isolator.report.sentences.remedies import remedy_words
from isolator.report.sentences.short_choice import other_words
from isolator.report.terminal.answer import FILES, LINES, answer_lines
from isolator.vibration.band import Band
from isolator.vibration.evaluation import Question
from isolator.vibration.installation import build_installation

CARDS = load_cards()
POOR = """
name = "Light printer"
[printer]
mass = "6 kg"
size = ["372 mm", "385 mm", "420 mm"]
[motion]
layout = "moving-bed"
speeds = ["20 mm/s", "90 mm/s"]
acceleration = "3000 mm/s^2"
[[motor]]
name = "x"
damper = "none"
[[motor]]
name = "y"
damper = "none"
[desk]
material = "chipboard"
[limits]
least_gain_db = 1.5
[stock]
materials = ["pu-visco-30", "sponge-3"]
shapes = ["disc"]
widths = ["20 mm", "56 mm", "6 mm"]
max_layers = 2
"""
TYPED = '[slab]\nsize = ["400 mm", "400 mm", "40 mm"]\nmass = "14.7 kg"\n'


def silent(what: str, done: int, total: int) -> None:
    """Tell nobody how far it is."""


def reread(changes: Sequence[Change]) -> Brief:
    return read_brief_text(POOR, "light.toml", changes)


def never(changes: Sequence[Change]) -> Brief:
    raise AssertionError("no slab is needed")


@pytest.mark.parametrize(
    ("outside", "side", "mass"),
    [
        ((0.402, 0.395, 0.5), 0.4, 14.7),  # 2300 kg/m³ × 0.4 × 0.4 × 0.04 m³
        # feet stand some 30 mm inside and are 20 mm wide: 20 mm at each side may hang over
        ((0.33, 0.44, 0.48), 0.4, 14.7),
        ((0.441, 0.33, 0.48), 0.5, 23.0),
        ((0.2, 0.3, 0.3), 0.3, 8.28),
    ],
)
def test_a_paver_is_the_smallest_sold_one_that_carries_the_feet(
    outside: tuple[float, ...], side: float, mass: float
) -> None:
    paver = paver_of(outside)
    assert paver is not None
    assert (paver.size, paver.mass) == ((side, side, 0.04), mass)


def test_a_paver_reaches_to_the_feet_that_go_under_it() -> None:
    corners = [(x, y) for x in (-0.195, 0.195) for y in (-0.205, 0.19)]
    bare, paver = paver_of((0.42, 0.44, 0.48)), paver_of((0.42, 0.44, 0.48), corners)
    assert bare is not None
    assert paver is not None
    assert (bare.size[0], paver.size[0]) == (0.4, 0.5)
    # no sold one reaches so far: the largest, and feet.positions is told as the fault
    far = paver_of((0.42, 0.44, 0.48), [(0.31, 0.0)])
    assert far is not None
    assert far.size[0] == SIDES[-1]


def test_no_sold_paver_carries_a_printer_wider_than_the_largest() -> None:
    most = SIDES[-1] + 2.0 * OVERHANG
    assert paver_of((most, most, 1.0)) is not None
    assert paver_of((most + 0.001, 0.3, 1.0)) is None


def test_a_speed_is_poor_unless_its_loud_end_is_plainly_quieter() -> None:
    plain, doubtful = Band(low=-9, nominal=-6, high=-3), Band(low=-9, nominal=-6, high=-2.9)
    assert not is_poor((), [plain, plain])
    assert is_poor((), [plain, doubtful])
    assert is_poor(("sway",), [plain])


@pytest.fixture(scope="module")
def found(few_samples: None) -> Findings:
    """The printer designed, with a paver tried."""
    return solve(reread(()), CARDS, silent, reread=reread)


def searching(brief: Brief) -> Search:
    task, installation = build_feet_task(brief), build_installation(brief, CARDS)
    return Search(
        task=task,
        installation=installation,
        offered=offered_feet(task, CARDS, "light.toml"),
        baseline=installation.bumpers,
    )


@pytest.fixture(scope="module")
def typed(few_samples: None) -> ChosenFeet:
    """The best feet where its keys are typed."""
    return best_feet(searching(read_brief_text(POOR + TYPED, "light.toml")), silent).choice


def test_a_poor_speed_gets_a_paver_told_as_the_same_keys_typed_would_find(
    found: Findings, typed: ChosenFeet
) -> None:
    (told,) = (each for each in found.alternatives if each.kind == SLAB)
    chosen = found.alternatives[0]
    assert chosen.chosen
    assert not told.chosen
    assert all(a.nominal < b.nominal - 2 for a, b in zip(told.heard, chosen.heard, strict=True))
    assert told.sway <= told.sway_limit
    (foot,) = typed.feet
    assert told.size == (*foot.pad.widths, foot.pad.thickness)
    assert told.sway == typed.held.sway.worst
    # said with what to buy, everywhere the others are
    assert choice(told).startswith("a concrete paver of 400 × 400 × 40 mm, some 15 kg, on 4 × ")
    gain = round(-max(each.nominal for each in told.heard))  # where it gains least
    assert f"slab of 15 kg: {gain} dB(A) quieter" in other_words(found)[0]
    assert [each["slab"] for each in to_json(found)["alternatives"] if each["kind"] == "slab"] == [
        {"size_m": [0.4, 0.4, 0.04], "mass_kg": 14.7}
    ]


def test_feet_under_a_slab_are_not_judged_without_it(typed: ChosenFeet) -> None:
    brief = read_brief_text(POOR + TYPED, "light.toml")
    assert with_paver(brief, never) is None  # it has its slab
    question = Question(speeds=brief.motion.speeds, frequencies=())
    with pytest.raises(InputError) as refusal:
        assess(reread(()), CARDS, question, to_design(brief, typed.feet))
    assert refusal.value.faults[0].line() == (
        "design.toml: slab: found feet designed under a slab; wanted the same slab in the brief; "
        'write [slab] with size = ["400 mm", "400 mm", "40 mm"] there, or say it with '
        """--set slab.size='["400 mm", "400 mm", "40 mm"]'"""
    )


def test_the_paver_that_is_told_as_a_remedy_mends_what_fails(
    found: Findings, typed: ChosenFeet
) -> None:
    assert failing(found.checks)[:1] == (QUIETER,)
    remedy = found.remedy
    assert remedy is not None
    assert remedy.kind == SLAB
    assert remedy.passes
    assert dict(remedy.keys)["slab.mass"] == "14.7 kg"
    material = CARDS[typed.feet[0].pad.material]

    def broken(mass: float) -> tuple[str, ...]:
        """Return the checks that fail on these pads under a slab of so many kg."""
        thick = f"{40.0 * mass / 14.7:.0f} mm"
        text = TYPED.replace("14.7 kg", f"{mass!r} kg").replace("40 mm", thick)
        return judged(searching(read_brief_text(POOR + text, "light.toml")), typed.feet, material)[
            1
        ]

    assert broken(14.7) == ()
    assert remedy.least_mass is not None
    assert broken(remedy.least_mass) == ()
    assert broken(remedy.least_mass - 1.0)
    # told as among the others, against the same bumpers as the headline
    assert remedy.change is not None
    at = found.chosen.speeds.index(
        next(each for each in found.chosen.speeds if each.speed == remedy.speed)
    )
    (told,) = (each for each in found.alternatives if each.kind == SLAB)
    assert remedy.change == told.heard[at]
    drawn = solve(read_brief_text(POOR + TYPED, "light.toml"), CARDS, silent).chosen.speeds[at]
    assert drawn.speed == remedy.speed
    assert drawn.heard is not None
    assert remedy.change.nominal == pytest.approx(drawn.heard.desk.nominal, abs=0.5)
    lines = answer_lines(found, 80)
    assert len(lines) <= LINES - FILES
    assert [line for line in lines if line.startswith("  TRIED     a paver of 15 kg: ")]
    told = to_json(found)["remedy"]
    assert told["keys"]["slab.mass"] == "14.7 kg"
    assert (told["design_from"], told["pick"]) == (None, SLAB if remedy.least_mass else None)


def test_where_a_check_fails_on_a_paver_the_heavier_one_that_passes_is_told(
    found: Findings, typed: ChosenFeet
) -> None:
    (told,) = (each for each in found.alternatives if each.kind == SLAB)
    brief = read_brief_text(POOR + TYPED, "light.toml")
    more = UnderPaver(told=told, failing=(), feet=typed.feet, brief=weighing(brief, 20.0))
    under = UnderPaver(
        told=told, failing=("sway",), feet=typed.feet, brief=brief, least_mass=20.0, heavier=more
    )

    def remedy(under: UnderPaver) -> Remedy:
        (only,) = of_paver(under, None, ("sway",), None)
        return only

    heavier = remedy(under)
    assert heavier.passes
    # 40 mm x 20 / 14.7
    assert dict(heavier.keys) == {
        "slab.size": '["400 mm", "400 mm", "54 mm"]',
        "slab.mass": "20 kg",
    }
    assert remedy_words(heavier) == (
        "Tried: a concrete paver of 400 × 400 × 54 mm, some 20 kg: all checks of the feet hold "
        """(--set slab.size='["400 mm", "400 mm", "54 mm"]' --set slab.mass="20 kg")"""
    )
    none = remedy(replace(under, least_mass=None, heavier=None))
    assert not none.passes
    assert dict(none.keys)["slab.mass"] == "14.7 kg"


def test_a_paver_that_is_worse_than_what_fails_is_not_told(
    found: Findings, typed: ChosenFeet
) -> None:
    (told,) = (each for each in found.alternatives if each.kind == SLAB)
    brief = read_brief_text(POOR + TYPED, "light.toml")
    heard = (Band(low=-13.0, nominal=-2.0, high=1.0), Band(low=-9.0, nominal=-6.0, high=4.0))
    under = UnderPaver(
        told=replace(told, heard=heard), failing=(QUIETER,), feet=typed.feet, brief=brief
    )

    def tried(failed: str, loud: float) -> list[bool]:
        now = Band(low=-3.0, nominal=0.0, high=loud)
        return [each.passes for each in of_paver(under, 0.02, (failed,), now)]

    assert tried(QUIETER, 4.5) == [False]
    assert tried(QUIETER, 3.5) == []  # louder at another speed
    assert tried("sway", 4.5) == []  # quieter than before held without it


def test_feet_that_are_plainly_quieter_get_none() -> None:
    text = POOR.replace("3000 mm", "400 mm").replace('["20 mm/s", "90', '["60 mm/s", "90')
    found = solve(read_brief_text(text, "light.toml"), CARDS, silent, reread=never)
    assert [speed.verdict for speed in found.chosen.speeds] == ["quiet", "quiet"]
    assert QUIETER not in {check.name for check in found.checks if not check.passed}


def test_a_paver_that_is_picked_is_designed_as_if_its_keys_were_typed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "light.toml"
    path.write_text(POOR, encoding="utf-8")
    asked: list[tuple[Brief, str]] = []

    class StopHereError(Exception):
        """Nothing is solved or drawn."""

    def solved(brief: Brief, cards: object, progress: object, pick: str, *more: object) -> None:
        asked.append((brief, pick))
        raise StopHereError

    monkeypatch.setattr(job, "answered", solved)
    for text in (POOR, POOR + TYPED):
        path.write_text(text, encoding="utf-8")
        with pytest.raises(StopHereError):
            job.design(path, tmp_path / "out", silent, pick=SLAB)
    (picked, kind), (typed, _) = asked
    assert kind == ""
    assert picked.slab == typed.slab
    assert picked.warnings[:2] == (
        "slab.size: 400 mm x 400 mm x 40 mm: the smallest sold paver that carries the printer's "
        "feet, as --pick slab asks",
        "slab.mass: 14.7 kg, of concrete; weigh it",
    )
    path.write_text(POOR.replace("372 mm", "1900 mm"), encoding="utf-8")
    with pytest.raises(InputError) as refusal:
        job.design(path, tmp_path / "out", silent, pick=SLAB)
    line = refusal.value.faults[0].line()
    assert "found a printer too large for any paver that shops keep; wanted 640 mm at most" in line


def test_a_check_tries_a_paver_at_the_worst_of_the_speeds_asked_about(found: Findings) -> None:
    speeds = tuple(0.02 + 0.01 * step for step in range(MOST_SPEEDS + 1))
    question = Question(speeds=speeds, frequencies=())
    checked = assess(reread(()), CARDS, question, found.design, reread=reread)
    assert QUIETER in failing(checked.checks)
    remedy = checked.remedy
    assert remedy is not None
    assert remedy.kind == SLAB
    assert remedy_words(remedy).endswith(" (try: isolator design light.toml --pick slab)")
    told = to_json(checked)["remedy"]
    assert (told["design_from"], told["pick"], told["keys"]) == ("light.toml", SLAB, {})
    heard = {each.speed: each.heard.desk.high for each in checked.chosen.speeds if each.heard}
    assert remedy.speed == max(heard, key=heard.__getitem__)
    assert remedy.change is not None
    assert remedy.change.nominal < -1.0


def test_a_printer_that_would_tip_off_its_own_feet_on_a_paver_is_told_none() -> None:
    places = '["-183 mm", "-180 mm"], ["183 mm", "-180 mm"], ["183 mm", "180 mm"]'
    text = POOR.replace("[motion]", 'center_of_mass = ["165 mm", "0 mm", "150 mm"]\n[motion]')
    text += f'[feet]\npositions = [{places}, ["-183 mm", "180 mm"]]\n'
    now = '[feet.now]\nmaterial = "nr-50"\nsize = ["20 mm"]\nthickness = "10 mm"\n'

    def tried(text: str) -> bool:
        slabbed = with_paver(
            read_brief_text(text, "light.toml"),
            lambda changes: read_brief_text(text, "light.toml", changes),
        )
        assert slabbed is not None
        return under_paver(slabbed, CARDS, "", weigh=False) is not None

    # its own feet stand 30 mm inside its outline, 156 mm from the middle
    assert tried(text)
    assert not tried(text + now)


def test_a_place_beside_the_paver_means_none_is_told() -> None:
    beside = (
        '[feet]\npositions = [["-350 mm", "-150 mm"], ["350 mm", "-150 mm"], ["0 mm", "150 mm"]]'
    )

    def again(changes: Sequence[Change]) -> Brief:
        return read_brief_text(POOR + beside, "light.toml", changes)

    paver = paver_of((0.372, 0.385))
    assert paver is not None
    with pytest.raises(InputError, match="beside the slab"):
        again(paver_keys(paver))
    assert with_paver(again(()), again) is None
