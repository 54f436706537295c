"""What a card of one's own makes of feet that are designed already, beside the card they have."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from isolator.brief import Brief, read_brief
from isolator.cards import Material
from isolator.commands.designed import design_file
from isolator.commands.known_cards import known_cards, unknown_card
from isolator.design import Design
from isolator.design.read import read_design
from isolator.feet.checks import Bounds
from isolator.feet.foot_checks import final_checks
from isolator.feet.task import build_feet_task
from isolator.measuring.squashed import FeetChange, OnCard
from isolator.reading.faults import InputError, refused
from isolator.reading.printable import printable
from isolator.vibration.band import Band
from isolator.vibration.evaluation import Question
from isolator.vibration.holds_up import appraise_standing
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.results import Evaluation
from isolator.vibration.stand import feet_stand
from isolator.vibration.targets import slowest_limit


def feet_change(path: Path, out: Path, card: Material) -> FeetChange:
    """Return what `card` makes of the feet designed from the brief at `path`.

    Raises InputError where there are none yet, or where the printer falls over on either.
    """
    brief = read_brief(path)
    file = design_file(brief, out)
    if file is None:
        raise refused(
            printable(str(path)),
            "feet",
            "no feet designed from it",
            "a design to see what the card changes",
            "run `isolator design` on it first, or leave out --brief",
        )
    design, cards = read_design(file), known_cards(brief)
    ident = next((foot.pad.material for foot in design.feet), "")
    if ident not in cards:
        raise InputError([unknown_card(printable(str(file)), "foot.pad.material", ident, cards)])
    return FeetChange(
        file=printable(str(file)),
        speeds=brief.motion.speeds,
        before=_on_card(brief, cards, design, cards[ident]),
        after=_on_card(brief, cards, design, card),
    )


def _on_card(brief: Brief, cards: Mapping[str, Material], design: Design, card: Material) -> OnCard:
    installation = build_installation(brief, dict(cards))
    found = appraise_standing(
        installation,
        feet_stand(brief.room, design.feet, card),
        Question(speeds=brief.motion.speeds, frequencies=()),
        build_now_stand(brief, dict(cards)),
        file=brief.source_file,
    )
    bounds = Bounds(
        task=build_feet_task(brief), limits=brief.limits, modes=slowest_limit(brief.motion)
    )
    checks = final_checks(bounds, brief.motion, found, design.feet, card)
    return OnCard(
        material=card.id,
        bounce=_bounce(found),
        strain=found.worst_strain or 0.0,
        sway=found.sway.worst,
        checks=tuple(each for each in checks if each.binding),
        heard=tuple(each.heard.desk for each in found.speeds if each.heard is not None),
    )


def _bounce(found: Evaluation) -> Band:
    return next(mode.frequency for mode in found.modes if mode.name == "bounce")
