"""What to make and how it goes together, one line a part."""

from __future__ import annotations

from isolator.cards import Material
from isolator.design import Design, Foot, MotorSpacer, PrintSettings, Slab
from isolator.design.damper import MotorDamper
from isolator.design.faceplates import screw_of
from isolator.design.filaments import sold_as
from isolator.design.fill import foot_fill
from isolator.design.phrases import drawn_pad, in_a_sentence, millimetres
from isolator.workshop.bought_dampers import made_up

SPACER_RUB = (
    "Its narrow end stands on the bearing's inner ring, which turns with it, and carries the rest "
    "over the boss, which does not"
)


GAUGE_OFF = (
    "slipped onto the bare motor while the set screw is tightened, and off again; nothing stays "
    "on the shaft"
)


def make_lines(design: Design | None, cards: dict[str, Material]) -> tuple[str, ...]:
    """Return what to print, to cut and where it goes; nothing without a design."""
    if design is None:
        return ()
    lines: list[str] = []
    for foot in design.feet:
        lines += _foot(foot, cards[foot.pad.material].name, design.print)
        lines.append(_places(foot, len(design.feet) > 1))
    if design.slab is not None:
        lines.append(_slab(design.slab))
    return (
        *lines,
        *(_damper(damper, cards) for damper in design.motor_dampers),
        *(_spacer(spacer) for spacer in design.motor_spacers),
    )


def _foot(foot: Foot, name: str, settings: PrintSettings) -> list[str]:
    """Return what one kind of foot is made of."""
    count, pad = len(foot.positions), drawn_pad(foot.pad, name)
    if not foot.build.hung:
        return [f"{count} × pad, {pad}, glued all over under the slab"]
    beside = _beside(foot)
    if foot.mounted:
        return [
            f"{count} × mount{beside}, printed solid in {settings.material} without supports, as "
            "the files lie",
            f"{count} × flexible body, {pad}, {_printed(foot, settings)}, glued all over to its "
            f"mount{LATE if foot.fastening.driven else ''}",
            *_tread(foot, settings),
        ]
    if foot.build.soft_body:
        return [
            f"{count} × printed foot, {pad}, {_printed(foot, settings)}{beside}",
            *_tread(foot, settings),
        ]
    if foot.ends is not None:
        sole = f" and {count} × sole" if foot.sole > 0 else ""
        ends = f"M{foot.ends.thread * 1e3:g}, {foot.ends.words}"
        return [
            f"{count} × plate{sole}{beside}, printed solid in {settings.material} without "
            "supports, as the files lie",
            f"{count} × bought buffer, {pad}, {ends}; screwed to its plate{'s' if sole else ''}",
            *_tread(foot, settings),
        ]
    cover = f", {count} × cover" if foot.covered else ""
    sole = f" and {count} × sole" if foot.build.sole > 0 else ", 1 × saw guide for the ball"
    layers = " (layers glued to each other too)" if foot.pad.layers > 1 else ""
    onto = "into the cup and onto the sole" if foot.build.sole > 0 else "into the cup"
    return [
        f"{count} × cup{sole}{cover}{beside}, printed solid in {settings.material} without "
        "supports, as the files lie",
        f"{count} × {foot.build.pad}, {pad}, glued all over {onto}{layers} with a glue that "
        f"its maker names for both{LATE if foot.fastening.driven else ''}",
        *_tread(foot, settings),
    ]


def _printed(foot: Foot, settings: PrintSettings) -> str:
    """Return how the flexible body of a foot is printed."""
    return f"printed in {sold_as(foot.pad.material)}: {foot_fill(foot, settings).words}"


LATE = "; fix the foot to the frame first, a glued pad lies over its screw"


def _tread(foot: Foot, settings: PrintSettings) -> list[str]:
    if foot.tread == 0:
        return []
    return [
        f"{len(foot.positions)} × tread of {millimetres(foot.tread, 1)}, printed in "
        f"{settings.flexible}, glued under its foot, grooves to the desk"
    ]


def _beside(foot: Foot) -> str:
    """Return the parts that go with a foot's attachment and sole."""
    count = len(foot.positions)
    own = {"plug": "plug for the tube", "socket": "socket for the rod"}.get(foot.fastening.way)
    more = f", {count} × {own}" if own else ""
    if foot.key > 0:
        more += f", {count} × key for the slot"
    return more


def _slab(slab: Slab) -> str:
    size = " × ".join(f"{side * 1e3:.0f}" for side in slab.size)
    lip = ", 4 × printed corner glued to it that hold the frame" if slab.lip > 0 else ""
    return (
        f"1 × slab of {size} mm under the printer{lip}; lift it with two people, and onto a desk "
        "that bears it"
    )


def _places(foot: Foot, several: bool) -> str:
    places = "; ".join(f"({x * 1e3:.0f}, {y * 1e3:.0f})" for x, y in foot.positions)
    screw, thread = foot.thread, "ST" if foot.fastening.tapping else "M"
    into = {
        "nut": " from above, into a nut in the cap",
        "insert": " from above, into an insert set with heat",
        "direct": " from above, into a thread of its own",
    }.get(foot.fixing, "")
    held = f", held by {thread}{screw * 1e3:g}{into}" if screw > 0 else ""
    whose = f"{foot.name}: centres" if several else "foot centres"
    return f"{whose}, mm right and back of the middle: {places.replace('-', '−')}{held}"


def _spacer(spacer: MotorSpacer) -> str:
    high = millimetres(spacer.height, 1)
    thread = f"M{screw_of(spacer.frame_size).thread * 1e3:g}"
    long = millimetres(spacer.motor_screw, 1)
    screws = f"four screws {thread} × {long}" if spacer.motor_screw else f"screws longer by {high}"
    return (
        f"1 × spacer plate of {high} between frame and motor {spacer.name}, printed solid in "
        f"{spacer.filament}, on {screws}, and {_pulley(spacer)}"
    )


def _pulley(one: MotorSpacer | MotorDamper) -> str:
    """Return what gives a pulley its height: a ring that stays, or a gauge that comes off."""
    high = millimetres(one.pulley_spacer, 1)
    if one.gauge:
        return f"1 × gauge of {high} that sets its pulley's height: {GAUGE_OFF}"
    return f"1 × pulley spacer of {high} on its shaft, which turns with it. {SPACER_RUB}"


def _damper(damper: MotorDamper, cards: dict[str, Material]) -> str:
    printed = f" printed in {damper.filament}" if damper.kind.sheet else ""
    wedge = (
        f", the wedge{printed} between bracket and frame-side plate, its arrow to the belts' side"
        if damper.wedge > 0
        else ""
    )
    if damper.bought:
        return f"{made_up(damper)}{wedge}; {_pulley(damper)}"
    rubber = in_a_sentence(cards[damper.material].name)
    ring = damper.shape == "ring"
    what = "ring" if ring else "four pads"
    how = "cast in the printed mould" if damper.cast else "cut by its template"
    made = (
        f"cut by a shop of {damper.kind.told} sheet by their DXF files, edges deburred"
        if damper.kind.sheet
        else f"printed solid in {damper.filament}"
    )
    return (
        f"1 × damper under motor {damper.name}: motor-side plate of "
        f"{millimetres(damper.motor_plate, 1)} and frame-side plate of "
        f"{millimetres(damper.frame_plate, 1)}, {made}; between them "
        f"{'a ' if ring else ''}{what} of {rubber}, {millimetres(damper.rubber, 2)} high, {how}, "
        f"glued all over to both{wedge}; {_pulley(damper)}"
    )
