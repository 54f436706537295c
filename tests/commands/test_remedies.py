"""Of what was tried for checks that fail the best is told: what passes, then what gains most."""

from __future__ import annotations

import pytest

from isolator.commands.remedies import best_remedy
from isolator.report.findings import Paver, Remedy
from isolator.report.sentences.remedies import remedy_items, remedy_words
from isolator.vibration.band import Band, Check, Figures

PAVER = Paver(size=(0.42, 0.44, 0.04), mass=17.0)


def trial(kind: str, gain: float, *, passes: bool) -> Remedy:
    key = {"slab": "slab.size", "sway": "limits.sway"}.get(kind, "motion.acceleration")
    change = Band(low=-gain - 3.0, nominal=-gain, high=-gain + 2.0)
    return Remedy(kind=kind, keys=((key, "…"),), passes=passes, speed=0.04, change=change)


def check(name: str, *figures: tuple[str, float], passed: bool = False) -> Check:
    told: Figures = figures
    return Check(name=name, value=1.2, limit=1.0, unit="×", passed=passed, figures=told)


def best(*trials: Remedy, checks: tuple[Check, ...] = (check("sway"),)) -> Remedy | None:
    return best_remedy(checks, trials)


def test_what_makes_all_checks_hold_comes_before_what_gains_more() -> None:
    passing, louder = trial("acceleration", 2.0, passes=True), trial("slab", 9.0, passes=False)
    assert best(louder, passing) == passing
    assert best(louder) == louder
    more = trial("slab", 4.0, passes=True)
    assert best(passing, more, louder) == more
    # a limit that is wished for is given up last
    assert best(trial("sway", 12.0, passes=True), passing) == passing
    assert best(trial("sway", 12.0, passes=True), louder) == trial("sway", 12.0, passes=True)


def test_what_neither_passes_nor_gains_is_no_remedy() -> None:
    assert best(trial("slab", 0.9, passes=False)) is None
    assert best(trial("slab", 9.0, passes=True), checks=(check("sway", passed=True),)) is None
    slab = trial("slab", 9.0, passes=False)  # its loud end at −7
    checks = (check("sway"),)
    assert best_remedy(checks, [slab], Band(low=-9.0, nominal=-7.5, high=-6.0)) == slab
    assert best_remedy(checks, [slab], Band(low=-11.0, nominal=-8.5, high=-6.0)) is None
    assert best_remedy(checks, [slab], Band(low=-9.0, nominal=-7.5, high=-7.2)) is None


def test_one_value_has_to_make_every_failing_check_hold() -> None:
    tipping = check("tipping", ("acceleration_mm_s2", 1200.0))
    sway = check("sway", ("acceleration_mm_s2", 1500.0), ("sway_mm", 0.6))
    both = best(checks=(tipping, sway, check("level", passed=True)))
    assert both is not None
    assert both.keys == (("motion.acceleration", "1200 mm/s^2"),)
    assert both.passes
    assert best(checks=(tipping, check("level"))) is None
    # of the values of one check the one that leaves the limit
    alone = best(checks=(sway,))
    assert alone is not None
    assert alone.keys == (("motion.acceleration", "1500 mm/s^2"),)


@pytest.mark.parametrize(
    ("remedy", "short", "whole"),
    [
        (
            Remedy(
                kind="slab",
                keys=(),
                passes=True,
                paver=PAVER,
                least_mass=13.0,
                speed=0.04,
                change=Band(low=-25.0, nominal=-22.0, high=-15.0),
            ),
            "a paver of 17 kg: 22 dB(A) quieter (15 to 25) at 40 mm/s, the feet pass, from 13 kg "
            "on (design --pick slab)",
            "Tried: a concrete paver of 420 × 440 × 40 mm, some 17 kg: 22 dB(A) quieter (15 to 25) "
            "at 40 mm/s, all checks of the feet hold, from 13 kg on (design --pick slab)",
        ),
        (
            Remedy(
                kind="acceleration",
                keys=(("motion.acceleration", "1500 mm/s^2"),),
                passes=False,
                softer=True,
                speed=0.04,
                change=Band(low=-4.0, nominal=-2.0, high=1.0),
            ),
            "motion.acceleration at 1500 mm/s^2 and softer feet: 2 dB(A) quieter (4 quieter to 1 "
            "louder) at 40 mm/s, a check fails yet",
            "Tried: motion.acceleration at 1500 mm/s^2 and softer feet: 2 dB(A) quieter (4 quieter "
            "to 1 louder) at 40 mm/s, not every check holds yet "
            '(--set motion.acceleration="1500 mm/s^2")',
        ),
        (
            Remedy(kind="friction", keys=(("limits.desk_friction", "0.5"),), passes=True),
            "limits.desk_friction at 0.5: the feet pass",
            "Tried: limits.desk_friction at 0.5: all checks of the feet hold "
            '(--set limits.desk_friction="0.5")',
        ),
    ],
)
def test_a_remedy_is_told_with_its_gain_and_how_to_take_it(
    remedy: Remedy, short: str, whole: str
) -> None:
    assert remedy_items(remedy) == (short,)
    assert remedy_words(remedy) == whole
    assert (remedy_items(None), remedy_words(None)) == ((), "")
