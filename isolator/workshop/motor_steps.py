"""How dampers and spacers go under motors, step by step, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from isolator.design import MotorSpacer
from isolator.design.damper import MotorDamper, poured
from isolator.design.faceplates import FACEPLATES
from isolator.design.phrases import in_a_sentence, millimetres
from isolator.workshop.bought_dampers import bought_steps
from isolator.workshop.damper_hardware import plate_rows, taken
from isolator.workshop.damper_words import DRILL
from isolator.workshop.sheet_steps import glued_words, sheet_steps
from isolator.workshop.step import Step

METAL = "tight with the short end of the key in your hand"
PLASTIC = "hand-tight, then a quarter turn, for plastic gives no torque figure"


def bench_steps(dampers: Sequence[MotorDamper], names: Mapping[str, str]) -> tuple[Step, ...]:
    """Return what is cast and glued before the printer is touched: dampers have to cure.

    `names` gives each card's name in words by its id.
    """
    dampers = [damper for damper in dampers if not damper.bought]
    if not dampers:
        return ()
    sheet = dampers[0].kind.sheet
    words = [
        "Lay the two hexagon screws of each damper into the frame-side plate's pockets and the two "
        "button screws into the motor-side plate's, both from the side that gets the rubber: once "
        "it is glued they cannot be put in any more.",
        "Clean plates and rubber of grease. Glue the rubber all over to both plates, with a glue "
        "that its maker names for this rubber and for the plates' filament: pockets inwards, edges "
        "flush, the hexagon pockets' diagonal across the round ones'.",
        "Keep glue off the screws, and let it cure. No screw goes from plate to plate: it would "
        "bridge the rubber.",
    ]
    cast = [damper for damper in dampers if damper.cast]
    return (
        *((_cast(cast, names),) if cast else ()),
        Step(
            title="Glue the dampers",
            words=glued_words() if sheet else tuple(words),
            cautions=("sheet edges", "glue") if sheet else (),
            owner=dampers[0].name,
            view="glue",
            uses=() if sheet else taken(dampers, "motor-side plate", "frame-side plate"),
        ),
    )


def _cast(dampers: Sequence[MotorDamper], names: Mapping[str, str]) -> Step:
    """Return how rubber is mixed and poured, one pour a damper."""
    pours: dict[str, list[str]] = {}
    for damper in dampers:
        volume, mass = poured(damper)
        amount = f"{mass * 1e3:.1f} g" if damper.density > 0 else f"{volume * 1e6:.1f} cm³"
        told = f"{amount} of {in_a_sentence(names[damper.material])}"
        pours.setdefault(told, []).append(damper.name)
    mixed = "; ".join(f"{told} for {_motors_named(motors)}" for told, motors in pours.items())
    return Step(
        title="Cast the rubber",
        words=(
            "Lay the mould level and wipe its floor and walls thinly with mould grease. Pour a few "
            "drops first where it does not matter: some greases keep rubber from curing.",
            f"Weigh out both parts in the ratio by mass of their maker's sheet, together {mixed}; "
            "a fifth for the spill is in it. Stir slowly and scrape the cup's wall and floor.",
            "Pour a thin stream into one place until it stands a little over the rim. Rap the "
            "mould on the table until no more bubbles rise, roll release film on from one side and "
            "press a flat sheet down to the rim.",
            "Let it cure level for the whole time of the sheet, take it out and cut the spill off.",
        ),
        cautions=("pour",),
        uses=tuple(dict.fromkeys(f"{names[damper.material]}, both parts" for damper in dampers)),
    )


def _motors_named(names: Sequence[str]) -> str:
    return f"motor {names[0]}" if len(names) == 1 else f"each of motors {', '.join(names)}"


def motor_steps(dampers: Sequence[MotorDamper], spacers: Sequence[MotorSpacer]) -> tuple[Step, ...]:
    """Return the steps at the printer in their order; none where no motor is touched."""
    if not dampers and not spacers:
        return ()
    made, bought = ([each for each in dampers if bool(each.bought) is own] for own in (False, True))
    belt = (
        "Tension the belts again, now that the motors give way, and turn each pulley by hand "
        "through a whole move. Look that no screw reaches across the rubber."
        if dampers
        else "Tension the belts again and turn each pulley by hand through a whole move."
    )
    return (
        Step(
            title=f"Take {_motors([*dampers, *spacers])} off",
            words=(
                "Mark which belt ran where. Slacken the belts, and take pulleys and motors off.",
            ),
            cautions=("motors off",),
        ),
        *_gauged(dampers, spacers),
        *(_damped(made) if made else ()),
        *(_damped(bought) if bought else ()),
        *(_plated(spacers) if spacers else ()),
        *_pulleys(dampers, spacers),
        Step(title="Tension the belts", words=(belt,)),
    )


def _damped(dampers: Sequence[MotorDamper]) -> tuple[Step, ...]:
    whose = _motors(dampers)
    nuts = any(FACEPLATES[damper.frame_size].flange > 0 for damper in dampers)
    behind = " A washer and a nut go behind the flange." if nuts else ""
    wedge = (
        "Slip each motor's own wedge over the frame-side screws, flat face to the plate: its name "
        "is engraved, and the arrow points to the side that the belts pull to. "
        if any(damper.wedge > 0 for damper in dampers)
        else ""
    )
    owner = dampers[0].name
    if dampers[0].bought:
        return bought_steps(dampers, whose, wedge, METAL)
    if dampers[0].kind.sheet:  # all that are made of one design are alike
        return sheet_steps(dampers, whose, wedge, METAL)
    return (
        Step(
            title=f"Bond {whose}",
            words=(
                "Before the damper covers it: scrape the motor's face bare round the screw hole "
                "where the plate's free corner will be, and screw the bonding wire's terminal on "
                f"it with the toothed washer under the screw's head.{behind}",
                "The other end goes under a screw of the frame, metal on metal. Leave the wire "
                "slack, and measure it with an ohmmeter.",
            ),
            cautions=("bonding wire",),
            owner=owner,
            view="bond",
            uses=taken(dampers, "bonding", "under the bonding", "from each motor"),
        ),
        Step(
            title="Screw the dampers to the motors",
            words=(
                "Put the motor-side plate on the motor's face, the boss in its hole, the free "
                "corner over the terminal. Tighten the button heads with the key through the "
                f"frame-side plate's two plain holes: {PLASTIC}.{behind}",
            ),
            owner=owner,
            view="motor",
        ),
        Step(
            title="Screw the dampers to the brackets",
            words=(
                f"{DRILL} {wedge}Put the hexagon screws through the bracket, with a washer and a "
                f"nut on each: {PLASTIC}.",
                "Motor and motor-side plate may now touch nothing of the frame; the bonding wire "
                "alone joins them.",
            ),
            cautions=("drill",),
            owner=owner,
            view="bracket",
            uses=taken(dampers, "self-locking", "under the nuts"),
        ),
    )


def _plated(spacers: Sequence[MotorSpacer]) -> tuple[Step, ...]:
    high = " and ".join(
        f"{millimetres(each.height, 1)} under motor {each.name}" for each in spacers if each.height
    )
    if not high:
        return ()
    return (
        Step(
            title="Put the spacer plates in",
            words=(
                f"Put the plate between bracket and motor, the boss in its hole: {high}. The "
                "motor's own screws are too short now: take those of the list, which may not reach "
                f"the ground of its holes. Crosswise, {PLASTIC}.",
            ),
            uses=tuple(f"{count} × {item}" for item, count, _, _ in plate_rows(tuple(spacers))),
        ),
    )


def _gauged(dampers: Sequence[MotorDamper], spacers: Sequence[MotorSpacer]) -> tuple[Step, ...]:
    """Return how pulleys are set by a gauge, while the motors are bare."""
    under = [each for each in dampers if each.gauge]
    told: list[MotorDamper | MotorSpacer] = [*under, *(each for each in spacers if each.gauge)]
    if not told:
        return ()
    high = " and ".join(
        f"{millimetres(each.pulley_spacer, 1)} for motor {each.name}" for each in told
    )
    return (
        Step(
            title="Set the pulleys by their gauge",
            words=(
                "While the motor is bare: slip its gauge onto the shaft from the side, its feet on "
                f"the motor's face, astride of the boss: {high}. Slide the pulley on, the way "
                "round that it was, and press it down onto the gauge with a finger.",
                "Turn a set screw over the shaft's flat, tighten it, then the other, and pull the "
                "gauge out by its grip. It does not stay, and nothing else does between motor and "
                "pulley: turn the shaft by hand and look. Keep the gauge for the next time.",
                "From now on the pulley goes through the holes of plates and bracket with its "
                "motor: see that no edge catches its flanges.",
            ),
            owner=under[0].name if under else "",
            view="gauge" if under else "",
            uses=tuple(f"gauge of motor {each.name}" for each in told),
        ),
    )


def _pulleys(dampers: Sequence[MotorDamper], spacers: Sequence[MotorSpacer]) -> tuple[Step, ...]:
    under = [each for each in dampers if not each.gauge]
    ringed: list[MotorDamper | MotorSpacer] = [*under]
    ringed += [each for each in spacers if not each.gauge]
    if not ringed:
        return ()
    clear = "the motor's face, the plates or the bracket" if under else "motor or bracket"
    some = len(ringed) < len(dampers) + len(spacers)
    return (
        Step(
            title="Put pulleys back on their spacers" + (f": {_motors(ringed)}" if some else ""),
            words=(
                "Slide each motor's own pulley spacer, narrow end first, and then the pulley onto "
                "the shaft, a set screw on its flat. The narrow end stands on the bearing's inner "
                f"ring. Nothing else that turns may touch {clear}: turn the shaft by hand and "
                "look.",
            ),
            owner=under[0].name if under else "",
            view="pulley" if under else "",
        ),
    )


def _motors(stacked: Sequence[MotorDamper | MotorSpacer]) -> str:
    names = list(dict.fromkeys(each.name for each in stacked))
    if len(names) == 1:
        return f"motor {names[0]}"
    return f"motors {', '.join(names[:-1])} and {names[-1]}"
