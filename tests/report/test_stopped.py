"""What the answer says of checks that stop most candidates."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from isolator.report.findings import Tally
from isolator.report.sentences.stopped import stopped_words


def tally(passed: int, without: Mapping[str, float | None]) -> Tally:
    rejected = {"room for its screw": 700, "pad strain": 300 - passed}
    shut_out: dict[str, tuple[str, ...]] = {
        "room for its screw": ("foam",),
        "pad strain": ("printed",),
    }
    return Tally(
        tried=1000,
        rejected=rejected,
        passed=passed,
        seconds=1.0,
        shut_out=shut_out,
        without=dict(without),
    )


@pytest.mark.parametrize(
    ("passed", "without", "said"),
    [
        (
            40,
            {"room for its screw": 6.4, "pad strain": 0.3},
            [
                'The check "room for its screw" stops 70 % of the candidates, and every foam. '
                "Without it feet would hold that are 6 dB(A) quieter than the best that hold.",
                'The check "pad strain" stops every printed. Without it '
                "the best would gain less than 1 dB(A) more.",
            ],
        ),
        (
            0,
            {"room for its screw": 8.7, "pad strain": None},
            [
                'The check "room for its screw" stops 70 % of the candidates, and every foam. '
                "Without it feet would hold that are 9 dB(A) quieter than before.",
                'The check "pad strain" stops every printed. Other checks stop them too.',
            ],
        ),
    ],
)
def test_what_a_check_costs_is_said(
    passed: int, without: Mapping[str, float | None], said: list[str]
) -> None:
    assert stopped_words(tally(passed, without)) == said
