"""How checks are told: limit, margin, and what to do about one that fails."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from isolator.feet.checks import BY_NAME, MODES
from isolator.feet.settings import KEYS, Key
from isolator.report.findings import Findings
from isolator.report.sentences.numbers import number, readable
from isolator.vibration.band import Check

ADVICE: Mapping[str, str] = {
    "foot width": "choose a narrower pad, or allow a wider one with limits.foot_width",
    "room for its screw": "take a wider pad or a thinner bolt, or glue the foot on",
    "room under its screws": "take a taller pad, or glue the foot on",
    "frame beyond its screws": (
        "move the feet inward, take a narrower pad, or turn them with feet.slot_along"
    ),
    "metal over every foot": "move the feet under metal, or tell the rails with feet.rails",
    "off the metal": (
        "the foot at ({x_mm:g}, {y_mm:g}) mm reaches {over_mm:g} mm beyond the frame's metal: "
        "move it to ({to_x_mm:g}, {to_y_mm:g}) mm with feet.positions, or tell feet.metal, "
        "feet.metal_width and feet.rails as they are"
    ),
    "wider than the metal": (
        "the foot at ({x_mm:g}, {y_mm:g}) mm reaches {over_mm:g} mm beyond the frame's metal, "
        "which is {room_mm:g} mm wide: take a pad that fits on it, screw the feet on, or put a "
        "plate between"
    ),
    "slab beyond its pads": "move the pads inward or take narrower ones",
    "foot height": "use a thinner or single-layer pad, or allow more with limits.foot_height",
    "every foot carries": "move the feet outward or the centre of mass inward until no foot lifts",
    "pad strain": "widen the pad, take more feet, or take a stiffer grade",
    "mount sheared by moves": "take wider or harder mounts, more feet, or a lower acceleration",
    "pad buckling": "take a wider or thinner pad: slender pads fold sideways",
    "modes below the motors": "take softer or thicker pads, or print faster",
    "quieter than before": ("put a slab under the printer, or allow softer feet with limits.sway"),
    "quieter from a speed": (
        "print at {speed_mm_s:g} mm/s or faster, put a slab under the printer, or allow softer "
        "feet with limits.sway"
    ),
    "standing upright": "move the feet outward or take stiffer pads: gravity is winning",
    "tipping": "lower limits on acceleration, or set the feet further apart",
    "sliding": "lower the acceleration, or put a flexible tread under the soles with feet.tread",
    "sway": "take stiffer or wider pads, or a lower acceleration; soft feet cost sway",
    "level": "move the feet so that they share the weight evenly",
    "screws apart": "take a narrower pad, set the screws further apart, or glue the foot on",
    "screws hold": "take a wider pad or a thicker screw",
    "flange bends": "set the screws closer to the foot, or take a wider pad",
    "flange gives": "take a pad of sheet in a cup, or set the screws closer to the foot",
    "plastic under the screw heads": "take thicker screws",
    "plastic over the screw head": "take a wider pad or a thicker screw",
    "thread in the plastic": "take a thicker screw, or a nut or an insert",
    "screws that are sold": (
        'no screw that shops keep fits: set cap = "{ear_mm:g} mm" for this foot in design.toml and '
        "draw it again, for {screw_mm:g} mm screws, or take another bolt"
    ),
    "no sold screw at all": (
        "no screw that shops keep fits, however thick the ear: take another bolt, or hold the foot "
        "otherwise"
    ),
    "stud bends": "take a thicker stud",
    "plug in its tube": "take a lower foot, or hold it otherwise",
    "socket on its rod": "take a lower foot, or hold it otherwise",
    "glue holds": "take a wider pad, or screw the foot on",
    "case of motor": "lower the current, or set a fan on the motor",
    "prints at motor": (
        "lower the motor's current, set a fan on it, or print what is at it in ABS or ASA; never "
        "in PLA"
    ),
    "printed bracket of motor": (
        "lower the motor's current, or bolt it to metal: printed parts under a warm motor creep"
    ),
    "belt plane": "print in thinner layers, or measure the stack and print its spacer again",
    "pulley over the boss": "take a taller stack, or set the pulley further off the motor's face",
    "boss too wide": "file the plates' hole wider, or do without plates",
    "radial load": "today it is {today:.2f} times; slacken the belt, or take a thinner stack",
    "holes too shallow": (
        "its holes are too shallow for {turns:g} turns of M{thread_mm:g} with {margin_mm:g} mm "
        "to spare: measure screw_depth again"
    ),
    "motor out of reach": (
        "no sold length of M{thread_mm:g} reaches the motor: take a thinner plate"
    ),
    "no length fits": (
        "no sold length of M{thread_mm:g} fits: take a plate {thicker_mm:.1f} mm thicker for "
        "{longer_mm:g} mm screws, or file them to length"
    ),
    "screw through the plates": (
        "no sold length of M{thread_mm:g} reaches through: take thinner plates, or a thinner "
        "bracket"
    ),
    "tilt of the shaft": "slacken the belt, allow a wedge, or take stiffer or wider rubber",
    "radial load assumed": (
        "today it is {today:.2f} times that; {force_n:g} N at {arm_mm:g} mm is usual of this size, "
        "from memory: ask the motor's data sheet and tell its radial_limit, or slacken the belt"
    ),
    "what is left of the belt's resonance": (
        "take stiffer, wider or thinner rubber, or allow a softer drive with damper.belt_ring"
    ),
    "quieter through the bracket": "do without it",
    "quieter through the bracket from a speed": (
        "print at {speed_mm_s:g} mm/s or faster, or do without it"
    ),
    "louder through the feet": "print faster, or do without",
    "shear of the rubber": "take wider or thicker rubber",
    "strain at the rubber's edge": "take thicker or wider rubber",
    "play of the plates": "take stiffer or wider rubber",
    "bending of the sheet plates": "take thicker sheet, or steel, or slacken the belt",
    "stiffness of the sheet plates over printed ones": "take thicker sheet, or steel",
    "screws clear of the far plate": "take thicker rubber or a stiffer one",
    "no damper": 'offer other rubber, a longer shaft or a slacker belt, or set damper to "auto"',
}
"""What to do about a check that fails, by its name or by the remedy that it names."""

WOULD_PASS: Mapping[str, str] = {
    "acceleration_mm_s2": "at {:g} mm/s^2 (motion.acceleration)",
    "friction": "with friction of {:g} on the desk (limits.desk_friction, measured)",
    "sway_mm": "with limits.sway at {:g} mm",
    "foot_width_mm": "with limits.foot_width at {:g} mm",
    "foot_height_mm": "with limits.foot_height at {:g} mm",
    "static_strain": "with limits.static_strain at {:g}",
    "gravity_share": "with limits.gravity_share at {:g}",
    "outward_mm": "with every foot {:g} mm further out along x and y",
    "wider_percent": "with pads {:g} % wider",
    "inward_mm": "with the centre of mass {:g} mm nearer to the middle of the feet",
}
"""How a value is told that makes a check pass, by the figure that the check carries."""
OR_ELSE: Mapping[str, str] = {
    "foot width": "choose a narrower pad",
    "foot height": "use a thinner or single-layer pad",
    "every foot carries": "move the feet outward until no foot lifts",
    "pad strain": "take more feet, or a stiffer grade",
    "mount sheared by moves": "take wider or harder mounts, or more feet",
    "pad buckling": "take a thinner pad",
    "standing upright": "take stiffer pads",
    "level": "move the feet so that they share the weight evenly",
    "tipping": "set the feet further apart",
    "sliding": "put a flexible tread under the soles with feet.tread",
    "sway": "take stiffer or wider pads",
}
"""What else helps where values that pass are told, by the check's name."""


def advice(check: Check) -> str:
    """Return what to do about a check, empty where it holds."""
    if check.passed:
        return ""
    passes = [WOULD_PASS[key].format(value) for key, value in check.figures if key in WOULD_PASS]
    if passes:
        return f"it would pass {', or '.join(passes)}; or {OR_ELSE[check.name]}"
    key, figures = check.remedy or check.name, dict(check.figures)
    return _longer_shaft(**figures) if key == "shaft too short" else ADVICE[key].format(**figures)


def would_pass(check: Check) -> list[tuple[str, Key | None, float]]:
    """Return each value with which a check that fails would pass: in words, its key of the brief
    where it has one, and the number."""
    words = {**WOULD_PASS, "speed_mm_s": "at {:g} mm/s and faster"}
    return [
        (words[figure].format(value), KEYS.get(figure), value)
        for figure, value in check.figures
        if figure in words and not check.passed
    ]


def value(check: Check) -> str:
    """Return what a check found, with two digits; with three where two look like its limit."""
    told = readable(check.value, check.unit, 2)
    alike = told == readable(check.limit, check.unit) and check.value != check.limit
    return readable(check.value, check.unit) if alike else told


def relation(check: Check) -> str:
    """Return on which side of its limit a check holds: "<=" or ">="."""
    if check.value == check.limit:
        rule = BY_NAME.get(check.name)
        return ">=" if rule is not None and rule.at_least else "<="
    return "<=" if check.passed == (check.value < check.limit) else ">="


def _longer_shaft(shaft_mm: float, thinner_mm: float, turned: float) -> str:
    told = ["the pulley turned round"] if turned else []
    if thinner_mm > 0:
        told.append(f"a stack at least {thinner_mm:.1f} mm thinner")
    return f"take {', or '.join([*told, f'a motor with {shaft_mm:.1f} mm of shaft'])}"


def margin(check: Check) -> str:
    """Return how far a check is from its limit: as a share of it, as a multiple, or in its unit."""
    gap = abs(check.value - check.limit)
    word = "to spare" if check.passed else "short" if check.value < check.limit else "over"
    if not math.isfinite(gap):
        return "–"
    if check.limit == 0 or check.unit.startswith("dB"):
        return f"{readable(gap, check.unit, 2)} {word}"
    if gap >= abs(check.limit) and check.value * check.limit > 0:
        return f"{number(check.value / check.limit, 2)} times the limit"
    share = 100.0 * gap / abs(check.limit)
    return f"under 1 % {word}" if 0 < share < 1 else f"{number(share, 2)} % {word}"


def limit(check: Check) -> str:
    """Return the limit with its side, told from the value and whether it passed."""
    if check.value == check.limit:
        return readable(check.limit, check.unit)
    side = "at most" if relation(check) == "<=" else "at least"
    return f"{side} {readable(check.limit, check.unit)}"


def modes_note(checks: Sequence[Check]) -> str:
    """Return what the target for modes is made of; empty where it is not among checks."""
    told = next((each for each in checks if each.name == MODES), None)
    if told is None:
        return ""
    return (
        f"{MODES[0].upper()}{MODES[1:]}: a target that stops nothing. Feet keep a tone back from "
        "√2 times a mode on. The motors' lowest tone at your slowest speed, along an axis or on a "
        f"diagonal, is {readable(math.sqrt(2.0) * told.limit, told.unit)}, so every mode is wanted "
        f"at {readable(told.limit, told.unit)} at most; the highest, at the end of its band, lies "
        f"at {value(told)}."
    )


def other_checks(findings: Findings) -> list[Check]:
    """Return the checks that are not told with a motor that shows them."""
    told = {each for motor in findings.motors for each in motor.checks}
    return [check for check in findings.checks if check not in told]
