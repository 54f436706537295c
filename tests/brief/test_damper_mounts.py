"""Motor dampers that are bought: what a brief tells of them, and what it must not."""

from __future__ import annotations

import math

import pytest
from briefs import faults, swapped

from isolator.brief import Brief, DamperMount, read_brief_text

SHEET = """[[damper.mount]]
name = "ring damper 42"
thickness = "5.4 mm"
plate = "1.2 mm"
outer = "33.6 mm"
hole = "23 mm"
"""
LINEAR = 'twist = "29 N*m/rad"\nradial = "140 N/mm"\naxial = "820 N/mm"\n'
KEY = "brief.toml: damper.mount[1]"


def text_of(mount: str, *pairs: tuple[str, str]) -> str:
    return swapped(("[desk]", f"{mount}\n[desk]"), *pairs)


def brief_of(mount: str) -> Brief:
    return read_brief_text(text_of(mount), "brief.toml")


def mount_of(mount: str) -> DamperMount:
    (found,) = brief_of(mount).damper.mounts
    return found


def test_a_sheet_is_read_and_what_it_lacks_is_said_to_be_assumed() -> None:
    brief = brief_of(SHEET + LINEAR)
    (found,) = brief.damper.mounts
    assert (found.twist, found.radial, found.axial) == (29.0, 140e3, 820e3)
    assert found.rubber == pytest.approx(3.0e-3)
    assert (found.spread, found.loss_factor, found.loss_spread) == (1.2, 0.1, 1.6)
    assert not found.loss_told
    told = {each.key.removeprefix("damper.mount[1]."): each.value for each in brief.assumed}
    assert told["conductivity"] == "0.15 W/(m*K)"
    assert {"frame_size", "tilt", "spread", "loss_factor", "dynamic_ratio", "found"} <= told.keys()
    assert brief.warnings == brief_of("").warnings


def test_points_on_a_line_are_its_stiffness_and_bent_ones_widen_the_spread() -> None:
    """Through zero by least squares, Σ M·φ over Σ φ²; the worst secant joins the spread by
    squares of logarithms."""
    points = 'torques = ["0.1 N*m", "0.2 N*m"]\nangles = ["0.2 deg", "0.4 deg"]\n'
    rest = LINEAR.split("\n", 1)[1]
    straight = mount_of(SHEET + points + rest)
    assert straight.twist == pytest.approx(0.1 / math.radians(0.2))
    assert straight.spread == pytest.approx(1.2)
    bent = mount_of(SHEET + points.replace("0.4 deg", "0.3 deg") + rest)
    line = (0.1 * 0.2 + 0.2 * 0.3) / (0.2**2 + 0.3**2)  # [N·m/°]
    assert bent.twist == pytest.approx(math.degrees(line))
    worst = max(abs(math.log(each / line)) for each in (0.1 / 0.2, 0.2 / 0.3))
    assert bent.spread == pytest.approx(math.exp(math.hypot(math.log(1.2), worst)))


def test_a_twist_per_degree_is_doubted() -> None:
    """29 N·m/rad are 0.506 N·m/°. Sheared alike, a ring twists by k·(D² + d²)/8."""
    wrong = SHEET + LINEAR.replace("29 N*m/rad", "0.506 N*m/rad")
    ring = 140e3 * (0.0336**2 + 0.023**2) / 8.0
    (told,) = set(brief_of(wrong).warnings) - set(brief_of("").warnings)
    assert told == (
        f"damper.mount[1].twist: 0.506 N*m/rad is {ring / 0.506:.0f} times off the {ring:.3g} "
        "N*m/rad of a ring of its size that is as stiff across the shaft; check both, and that "
        "twist is per radian, not per degree"
    )


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            'twist = "29 N*m/rad"\n',
            "",
            f"{KEY}.twist: found nothing; wanted either its stiffness, or torques and angles; add "
            'twist = "14 N*m/rad", from its data sheet',
        ),
        (
            'radial = "140 N/mm"',
            'radial = "0 N/mm"',
            f'{KEY}.radial: found "0 N/mm"; wanted a stiffness above zero; '
            "check the value and its sign",
        ),
        (
            'axial = "820 N/mm"',
            'axial_loads = ["40 N", "80 N"]',
            f"{KEY}.axial_sags: found nothing; wanted one to each of axial_loads; "
            "add axial_sags, or leave both",
        ),
        (
            'axial = "820 N/mm"',
            'axial_loads = ["40 N", "80 N"]\naxial_sags = ["4 cm", "8 cm"]',
            f"{KEY}.axial_sags[2]: found 80 mm; wanted less than 3 mm, which is all that its "
            "rubber allows; check the unit",
        ),
        (
            'radial = "140 N/mm"',
            'radial_loads = ["40 N", "20 N"]\nradial_sags = ["0.1 mm", "0.2 mm"]',
            f"{KEY}.radial_loads[2]: found 20 N; wanted more than 40 N; "
            "list both from the smallest load up",
        ),
        (
            'thickness = "5.4 mm"',
            'thickness = "2.4 mm"',
            f"{KEY}.thickness: found 2.4 mm; wanted more than its two plates, 2.4 mm; "
            "thickness counts plates and rubber; tell plate if they are thinner",
        ),
        (
            'outer = "33.6 mm"',
            'outer = "42 mm"',
            f"{KEY}.outer: found 42 mm; wanted no more than 35.1 mm, clear of the heads of a size "
            "17 motor's screws; measure it again, or tell the frame_size that it fits",
        ),
        (
            'hole = "23 mm"',
            'hole = "5 mm"',
            f"{KEY}.hole: found 5 mm; wanted at least 22 mm, the boss of a size 17 motor; "
            "measure it again, or tell the frame_size that it fits",
        ),
        (
            'name = "ring damper 42"',
            'name = "auto"',
            f'{KEY}.name: found "auto"; wanted a name of its own; '
            "that word says what a motor may have",
        ),
    ],
)
def test_a_sheet_that_contradicts_itself_is_one_line(old: str, new: str, message: str) -> None:
    assert faults(text_of(SHEET + LINEAR, (old, new))) == [message]


def motors(damper: str, more: str = "") -> str:
    return f'[[motor]]\ndamper = "{damper}"\n{more}\n[[motor]]\n'


@pytest.mark.parametrize(
    ("told", "message"),
    [
        (
            motors("ring damper 24"),
            'brief.toml: motor[3].damper: found "ring damper 24"; wanted one of auto, always, '
            "none, ring damper 42; or tell it under [[damper.mount]]",
        ),
        (
            motors("ring damper 42", "frame_size = 23"),
            'brief.toml: motor[3].damper: found "ring damper 42", which fits frame size 17; wanted '
            "one that fits this motor, of frame size 23; take another, or correct "
            "damper.mount[1].frame_size",
        ),
        (
            motors("ring damper 42", 'shaft_length = "19 mm"\npulley_standoff = "14 mm"'),
            'brief.toml: motor[3].damper: found "ring damper 42", 5.4 mm thick; wanted a stack '
            "thinner than the 5 mm of shaft beyond its pulley's end at the motor; check its "
            "thickness, shaft_length and pulley_standoff",
        ),
        (
            motors("ring damper 42", 'spacer_plate = "4 mm"'),
            'brief.toml: motor[3].damper: found "ring damper 42" beside a spacer_plate; wanted one '
            'of the two; leave out spacer_plate, or set damper to "none"',
        ),
    ],
)
def test_a_motor_may_name_its_damper_and_no_other(told: str, message: str) -> None:
    assert faults(text_of(f"{told}{SHEET}{LINEAR}")) == [message]


def test_a_motor_that_names_one_always_gets_it() -> None:
    brief = brief_of(f"{motors('ring damper 42')}{SHEET}{LINEAR}")
    assert [(each.damper, each.mount) for each in brief.motors[2:]] == [
        ("always", "ring damper 42"),
        ("auto", ""),
    ]
