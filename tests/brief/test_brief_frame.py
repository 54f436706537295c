"""How the frame bends, as it is typed: kinds, taps, and what is wrong with either."""

from __future__ import annotations

import pytest
from briefs import BARE, faults

from isolator.brief import Frame, read_brief_text
from isolator.brief.frame import KINDS, TAPPED


def typed(*lines: str) -> str:
    return "\n".join([BARE, "[frame]", *lines, ""])


def frame(*lines: str) -> Frame:
    return read_brief_text(typed(*lines), "brief.toml").frame


def test_a_silent_brief_gets_the_softest_kind_and_is_told_so() -> None:
    brief = read_brief_text(BARE, "brief.toml")
    assert brief.frame == Frame(kind="open", frequency=(), damping=(0.02,), top_mass=None)
    assert brief.frame.spread == KINDS["open"].spread
    told = {each.key: each.value for each in brief.assumed}
    assert (told["frame.kind"], told["frame.damping"]) == ("open", "0.02")


@pytest.mark.parametrize("kind", ["open", "enclosed", "panelled", "rigid"])
def test_kinds(kind: str) -> None:
    assert frame(f'kind = "{kind}"').kind == kind


def test_a_rigid_frame_has_nothing_to_assume() -> None:
    brief = read_brief_text(typed('kind = "rigid"', 'frequency = "30 Hz"'), "brief.toml")
    assert not [each for each in brief.assumed if each.key.startswith("frame")]
    assert brief.warnings == ("frame.frequency is ignored: the frame is rigid",)


def test_what_taps_show() -> None:
    found = frame('frequency = ["24 Hz", "27 Hz", "41 Hz"]', "damping = [0.02, 0.03, 0.01]")
    assert found.frequency == (24.0, 27.0, 41.0)
    assert found.damping == (0.02, 0.03, 0.01)
    assert found.spread == TAPPED
    brief = read_brief_text(typed('frequency = "33 Hz"', "damping = 0.015"), "brief.toml")
    assert (brief.frame.frequency, brief.frame.damping) == ((33.0,), (0.015,))
    assert not [each for each in brief.assumed if each.key.startswith("frame")]


@pytest.mark.parametrize(
    ("lines", "fault"),
    [
        (
            ['kind = "panneled"'],
            'frame.kind: found "panneled"; wanted one of open, enclosed, panelled, rigid; '
            'did you mean "panelled"?',
        ),
        (
            ["frequency = 33"],
            'frame.frequency: found 33; wanted a frequency with its unit; write it like "33 Hz"',
        ),
        (
            ['frequency = ["0.2 Hz", "27 Hz"]'],
            "frame.frequency: found 0.2 Hz; wanted 1 Hz to 1000 Hz; the frame's own ringing, with "
            "the printer standing hard on a hard floor",
        ),
        (
            ['frequency = ["24 Hz", "27 Hz"]', "damping = [0.02, 0.03, 0.01]"],
            "frame.damping: found 3 ratios for 2 frequencies; wanted one, or one for each "
            "frequency; add or remove some",
        ),
        (
            ["damping = []"],
            "frame.damping: found a list of 0; wanted 1 to 3 damping ratios; write one, or one "
            "for each frequency",
        ),
        (
            ['damping = "0.02"'],
            'frame.damping: found "0.02"; wanted a plain number from 0.001 to 0.3; '
            "write it bare, as 0.02",
        ),
        (
            ['top_mass = "12 kg"'],
            "frame.top_mass: found 12 kg; wanted 0.9 kg to 8.1 kg of the printer's 9 kg; "
            "the upper half of the frame with motors, gantry and tool; leave it out if unsure",
        ),
        (
            ['frequencies = ["24 Hz"]'],
            "frame.frequencies: found an unknown key; wanted a key of [frame]; "
            "did you mean frequency?",
        ),
    ],
)
def test_what_is_wrong(lines: list[str], fault: str) -> None:
    assert faults(typed(*lines)) == [f"brief.toml: {fault}"]
