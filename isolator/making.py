"""What to make and how it goes together, one line a part."""

from __future__ import annotations

from isolator.design import Design, Foot, MotorSpacer, attachment_thread
from isolator.design.damper import MotorDamper
from isolator.materials import Material
from isolator.words import drawn_pad, in_a_sentence, millimetres

SPACER_RUB = (
    "Its height counts from the motor's face: where the boss round the shaft does not turn with "
    "it, file the spacer until it clears the boss"
)
CAPTIVE = ("bolt", "tube-end")
"""Attachments whose screw head lies in the cup under a printed cover."""


def make_lines(design: Design | None, cards: dict[str, Material]) -> tuple[str, ...]:
    """Return what to print, to cut and where it goes; nothing without a design."""
    if design is None:
        return ()
    lines: list[str] = []
    for foot in design.feet:
        name = cards[foot.pad.material].name
        if foot.kind == "printed":
            lines.append(f"{len(foot.positions)} × printed foot, {drawn_pad(foot.pad, name)}")
        else:
            lines += _cup(foot, name, design.print.material)
        lines.append(_places(foot))
    return (
        *lines,
        *(_damper(damper, cards) for damper in design.motor_dampers),
        *(_spacer(spacer) for spacer in design.motor_spacers),
    )


def _cup(foot: Foot, name: str, filament: str) -> list[str]:
    count = len(foot.positions)
    cover = f", {count} × cover over the screw head" if foot.attachment in CAPTIVE else ""
    layers = " (layers glued to each other too)" if foot.pad.layers > 1 else ""
    return [
        f"{count} × cup and {count} × sole{cover}, printed solid in {filament} without supports, "
        "as the files lie",
        f"{count} × {drawn_pad(foot.pad, name)}, glued all over into the cup and onto the sole"
        f"{layers} with a glue that its maker names for both; fix the cup to the frame first, a "
        "glued pad hides a screw",
    ]


def _places(foot: Foot) -> str:
    places = "; ".join(f"({x * 1e3:.0f}, {y * 1e3:.0f})" for x, y in foot.positions)
    screw = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    held = f", held by M{screw * 1e3:g}" if screw > 0 else ""
    return f"foot centres, mm right and back of the middle: {places.replace('-', '−')}{held}"


def _spacer(spacer: MotorSpacer) -> str:
    high = millimetres(spacer.height, 1)
    return (
        f"1 × spacer plate of {high} between frame and motor {spacer.name}, on screws longer by "
        f"{high}, and 1 × pulley spacer of {millimetres(spacer.pulley_spacer, 1)} on its shaft; it "
        f"turns with the shaft and sets the pulley's height. {SPACER_RUB}"
    )


def _damper(damper: MotorDamper, cards: dict[str, Material]) -> str:
    rubber = in_a_sentence(cards[damper.material].name)
    ring = damper.shape == "ring"
    what = "ring" if ring else "four pads"
    how = "cast in the printed mould" if damper.cast else "cut by its template"
    wedge = ", the wedge between bracket and frame-side plate, its thin edge to the belts' side"
    return (
        f"1 × damper under motor {damper.name}: motor-side plate of "
        f"{millimetres(damper.motor_plate, 1)} and frame-side plate of "
        f"{millimetres(damper.frame_plate, 1)}, printed solid in {damper.filament}; between them "
        f"{'a ' if ring else ''}{what} of {rubber}, {millimetres(damper.rubber, 2)} high, {how}, "
        f"glued all over to both{wedge if damper.wedge > 0 else ''}; 1 × pulley spacer of "
        f"{millimetres(damper.pulley_spacer, 1)} on its shaft. {SPACER_RUB}"
    )
