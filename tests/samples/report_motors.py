"""Motors made up for the tests of the report: one on a damper, one on a plate, one bolted.

The damper's torque loss is that of a mass on a hysteretic spring, whose transmissibility is
√((1 + η²)/((1 − r²)² + η²)) (from memory); heights and thicknesses add up as on a drawing.
"""

from __future__ import annotations

import math

from isolator.design import MotorSpacer
from isolator.design.damper import MotorDamper
from isolator.motors.results import (
    Belt,
    CurrentRow,
    DamperLine,
    DamperMode,
    DamperState,
    DamperWorst,
    DriveEstimates,
    DriveRow,
    Heat,
    MotorHeard,
    MotorResult,
    NoDamper,
    Rubber,
    Screws,
    Stack,
)
from isolator.vibration.band import Band, Check
from isolator.vibration.results import Heard

TWIST = Band(low=44.0, nominal=53.0, high=66.0)
SPEEDS = (0.040, 0.060, 0.100)
TONES = {"electrical": 50, "twice electrical": 100, "full step": 200}
LEFT, RIGHT, LIFT = "left [bold]", "right", "lift"


def sheet() -> MotorDamper:
    return MotorDamper(
        name=LEFT,
        frame_size=17,
        position=(-0.17, 0.2, 0.42),
        axis="z",
        points=1,
        body=0.040,
        shaft=0.0287,
        pull=(0.97, 0.24, 0.0),
        shape="ring",
        first=0.0362,
        second=0.0241,
        circle=0.0,
        rubber=0.003,
        material="nr-50",
        cast=False,
        motor_plate=0.0036,
        frame_plate=0.0038,
        wedge=0.0012,
        wedge_angle=math.radians(0.71),
        bracket=0.0041,
        travel=0.0004,
        motor_screw=0.006,
        frame_screw=0.012,
        pulley_spacer=0.0156,
        bore=0.005,
        outer=0.009,
        filament="asa",
    )


def spacer() -> MotorSpacer:
    return MotorSpacer(
        name=RIGHT, frame_size=17, height=0.0052, pulley_spacer=0.0092, bore=0.005, outer=0.009
    )


def _loss(frequency: float, natural: float, eta: float = 0.11) -> float:
    r = frequency / natural
    return -10 * math.log10((1 + eta**2) / ((1 - r**2) ** 2 + eta**2))


def _spread(frequency: float, band: Band, less: float = 0.0) -> Band:
    values = [_loss(frequency, each) - less for each in (band.low, band.nominal, band.high)]
    return Band(low=min(values), nominal=values[1], high=max(values))


def lines() -> tuple[DamperLine, ...]:
    told = []
    for speed in SPEEDS:
        for source, events in TONES.items():
            f = speed / 0.040 * events
            worst = DamperWorst(
                direction_deg=math.degrees(math.acos(min(TWIST.nominal / f, 1.0))),
                frequency=min(TWIST.nominal, f),
                torque=_spread(min(TWIST.nominal, f), TWIST),
                beyond=Band(low=-3.1, nominal=-2.2, high=0.4),
            )
            told.append(
                DamperLine(
                    source=source,
                    speed=speed,
                    frequency=f,
                    torque=_spread(f, TWIST),
                    damper=Band(low=-1.6, nominal=0.7, high=2.1),
                    feet=Band(low=11.2, nominal=14.9, high=17.3),
                    both=Band(low=10.9, nominal=15.8, high=19.6),
                    worst=worst,
                )
            )
    return tuple(told)


def _about(frequency: float) -> Band:
    return Band(low=0.83 * frequency, nominal=frequency, high=1.22 * frequency)


def heard() -> tuple[MotorHeard, ...]:
    """What is heard through bracket and feet at each speed."""
    frame = {
        0.040: Band(low=-6.2, nominal=-3.4, high=1.7),
        0.060: Band(low=-9.9, nominal=-7.3, high=-4.1),
        0.100: Band(low=-14.8, nominal=-12.2, high=-8.6),
    }
    desk = Band(low=-1.7, nominal=0.1, high=0.8)
    return tuple(
        MotorHeard(speed=speed, heard=Heard(desk=desk, frame=each)) for speed, each in frame.items()
    )


def damper() -> DamperState:
    modes = {"sway": (97.0, 98.5), "twist": (53.0,), "rocking": (141.0, 143.5), "bounce": (312.0,)}
    return DamperState(
        rubber=Rubber(
            shape="ring",
            first=0.0362,
            second=0.0241,
            circle=0.0,
            thickness=0.003,
            material="Natural rubber, 50 Shore A",
        ),
        axial=1.31e6,
        shear=(142e3, 143e3),
        tilt=(161.0, 163.0),
        twist=33.4,
        modes=tuple(
            DamperMode(name=name, frequency=TWIST if name == "twist" else _about(f))
            for name, each in modes.items()
            for f in each
        ),
        heard=heard(),
        lines=lines(),
        shift=0.00031,
        wedge_angle=math.radians(0.71),
        wedge_step=0.00052,
        tilt_left=math.radians(0.16),
        helps_from=0.047,
        ceiling=30.0,
        screw_end=0.0043,
        belt_edge=0.0085,
        bridge=268.0,
        two_heights=False,
    )


def drive() -> DriveEstimates:
    return DriveEstimates(
        rows=tuple(
            DriveRow(
                speed=speed,
                turns=speed / 0.040,
                electrical=50 * speed / 0.040,
                needed=0.0213,
                available=0.187 - 0.2 * speed,
            )
            for speed in SPEEDS
        ),
        currents=(
            CurrentRow(share=1.0, margin=8.1, ripple_db=0.0, detent_db=0.0, power=4.2),
            CurrentRow(share=0.7, margin=5.6, ripple_db=-3.1, detent_db=0.0, power=2.06),
        ),
        step=12.5e-6,
        step_angle=math.radians(0.1125),
        step_torque=0.0314,
        standing=0.187,
        accuracy=10.0e-6,
        reference_voltage=1.11,
    )


def heat(after: float) -> Heat:
    return Heat(
        power=4.2,
        case_before=51.3,
        case_after=after,
        case=Band(low=after - 14.3, nominal=after - 3.1, high=after + 9.7),
        plate=after - 2.4,
        bracket=None,
        bracket_high=None,
        softening=98.0,
        limit=83.0,
    )


def checks(*, tilting: bool = False) -> tuple[Check, ...]:
    return (
        Check(
            name="shaft left inside the pulley",
            value=0.0131,
            limit=0.008,
            unit="m",
            passed=True,
        ),
        Check(
            name="tilt left with the wedge",
            value=0.0049 if tilting else 0.0028,
            limit=0.00436,
            unit="rad",
            passed=not tilting,
            remedy="tilt of the shaft",
        ),
        Check(name="case of the motor", value=58.2, limit=80.0, unit="°C", passed=True),
    )


def on_damper(*, tilting: bool = False) -> MotorResult:
    # 3.6 + 3.0 + 3.8 + 1.2 = 11.6 mm; 4.04 + 11.6 = 15.64 mm, in whole layers 15.6 mm;
    # 28.7 − 15.6 = 13.1 mm
    return MotorResult(
        name=LEFT,
        kind="damper",
        belted=True,
        stack_height=0.0116,
        pulley_spacer_height=0.0156,
        shaft_left=0.0131,
        stack=Stack(
            shaft_end=0.0029,
            set_screw_left=0.0101,
            belt_error=-0.00004,
            tolerance=0.00045,
            tallest=0.0152,
            reach=0.0121,
            belt_height=0.01554,
            short=None,
        ),
        belt=Belt(
            tension=21.3,
            pull=39.7,
            limit=None,
            usual_limit=(28.0, 0.02),
            arm=0.0271,
            arm_before=0.01554,
            resonance_before=61.7,
            resonance_after=54.2,
        ),
        tilt=math.radians(0.71),
        pulley_shift=0.00047,
        damper=damper(),
        without=None,
        screws=(
            Screws(
                count=2,
                thread="M3",
                length=0.006,
                head="button head, ISO 7380-1",
                where="motor-side plate into the motor",
                engagement=0.0044,
                turns=8.8,
                beside="",
            ),
            Screws(
                count=2,
                thread="M3",
                length=0.012,
                head="hexagon head, ISO 4017",
                where="frame-side plate through the bracket",
                engagement=0.0024,
                turns=4.8,
                beside="2 nuts ISO 4032, 2 washers ISO 7089",
            ),
        ),
        heat=heat(58.2),
        drive=drive(),
        checks=checks(tilting=tilting),
    )


def on_plate() -> MotorResult:
    return MotorResult(
        name=RIGHT,
        kind="plate",
        belted=True,
        stack_height=0.0052,
        pulley_spacer_height=0.0092,
        shaft_left=0.0138,
        stack=Stack(
            shaft_end=-0.0019,
            set_screw_left=0.0121,
            belt_error=0.0,
            tolerance=0.00015,
            tallest=0.0112,
            reach=0.0121,
            belt_height=0.0151,
            short=None,
        ),
        belt=Belt(
            tension=21.3,
            pull=39.7,
            limit=None,
            usual_limit=(28.0, 0.02),
            arm=0.0203,
            arm_before=0.0151,
            resonance_before=61.7,
            resonance_after=61.7,
        ),
        tilt=0.0,
        pulley_shift=0.0,
        damper=None,
        without=None,
        screws=(
            Screws(
                count=4,
                thread="M3",
                length=0.014,
                head="button head, ISO 7380-1",
                where="bracket and plate into the motor",
                engagement=0.0047,
                turns=9.4,
                beside="",
            ),
        ),
        heat=heat(52.9),
        drive=drive(),
        checks=checks()[:1],
    )


def bolted() -> MotorResult:
    return MotorResult(
        name=LIFT,
        kind="none",
        belted=False,
        stack_height=0.0,
        pulley_spacer_height=0.0041,
        shaft_left=0.0183,
        stack=Stack(
            shaft_end=-0.0031,
            set_screw_left=0.0151,
            belt_error=0.0,
            tolerance=0.0,
            tallest=0.0063,
            reach=0.0121,
            belt_height=0.0153,
            short=None,
        ),
        belt=Belt(
            tension=21.3,
            pull=39.7,
            limit=None,
            usual_limit=(28.0, 0.02),
            arm=0.0153,
            arm_before=0.0153,
            resonance_before=61.7,
            resonance_after=61.7,
        ),
        tilt=0.0,
        pulley_shift=0.0,
        damper=None,
        without=NoDamper(cause="not wanted"),
        screws=(),
        heat=heat(51.3),
        drive=drive(),
        checks=(),
    )


def motors(*, tilting: bool = False) -> tuple[MotorResult, ...]:
    return (on_damper(tilting=tilting), on_plate(), bolted())
