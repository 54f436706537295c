"""The main job: a brief goes in, a folder of parts and a report comes out."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from isolator.brief import Brief, read_brief
from isolator.brief.read import brief_source
from isolator.cards import Material
from isolator.commands.alternatives import alternatives
from isolator.commands.beside import Begin, here
from isolator.commands.check import assess
from isolator.commands.keep import keep_now, standing_now
from isolator.commands.kit import draw_ahead, mount
from isolator.commands.known_cards import known_cards
from isolator.commands.manifest import origin_of
from isolator.commands.now import with_now
from isolator.commands.output import make_ready
from isolator.commands.paver import (
    OVERHANG,
    SIDES,
    Reread,
    also,
    is_poor,
    paver_keys,
    paver_of,
    under_paver,
    with_paver,
)
from isolator.commands.progress import Progress
from isolator.commands.publish_design import Made, publish_design
from isolator.commands.remedies import best_remedy, loudest, of_paver, of_softer_feet
from isolator.commands.search import best_feet, offered_feet
from isolator.commands.to_design import to_design
from isolator.commands.trial import Search, failing
from isolator.commands.would_pass import with_all, with_speed
from isolator.design.cut_list import cut_list
from isolator.feet.checks import Bounds
from isolator.feet.foot_checks import heard_checks, with_modes
from isolator.feet.kinds import KEEP, SLAB
from isolator.feet.ranking import EQUAL_DB
from isolator.feet.task import build_feet_task
from isolator.motors.dampers import best_dampers
from isolator.motors.task import build_motor_task
from isolator.motors.whole import spoiled, with_dampers
from isolator.reading.changes import Change
from isolator.reading.faults import refused
from isolator.report.findings import Findings, Remedy
from isolator.report.sentences import answer
from isolator.report.sentences.notes import not_designed_from
from isolator.vibration.evaluation import Question, appraise
from isolator.vibration.holds_up import held_standing
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.spreads import draw
from isolator.vibration.stand import feet_stand
from isolator.vibration.targets import slowest_limit
from isolator.workshop.shopping import Item, goods, with_owned


def design(
    path: Path,
    out: Path,
    progress: Progress,
    pick: str = "",
    announce: Callable[[Findings], None] | None = None,
    changes: Sequence[Change] = (),
    begin: Begin = here,
    *,
    imperial: bool = False,
) -> Made:
    """Design the feet of a brief and write everything into `out`/<slug>/.

    `pick` asks for the best of one kind of feet, of `isolator.brief.stock.PICKS`. `announce` gets
    the answer as soon as it is known, before any part is drawn. `changes` are made to the brief
    first, and kept with it in the folder. What does not wait for anything else goes to `begin`.
    `imperial`: the report's record tells inches and pounds too.
    """
    brief = read_brief(path, changes)
    if pick == SLAB:
        pick, changes = "", (*changes, *_own_paver(brief))
        brief = read_brief(path, changes)
    cards = known_cards(brief)
    origin = replace(origin_of(brief.name, path), held=brief_source(path, changes))
    make_ready(out, brief.slug, origin)

    def reread(more: Sequence[Change]) -> Brief:
        return read_brief(path, (*changes, *more))

    findings = answered(brief, cards, progress, pick, begin, reread)
    if brief.feet.design is not None and not brief.feet.given:
        told = (not_designed_from(brief.feet.design), *findings.warnings)
        findings = replace(findings, warnings=told)
    findings = replace(findings, buy=to_buy(findings, brief, cards), imperial=imperial)
    if announce is not None:
        announce(findings)
    return publish_design(out, brief, cards, origin, findings, progress, begin)


def _own_paver(brief: Brief) -> tuple[Change, ...]:
    """Return the keys of a paver for a brief, none where it has a slab already.

    Raises InputError where the printer is too large for one.
    """
    if brief.slab is not None:
        return ()
    paver = paver_of(brief.printer.size, brief.feet.positions or ())
    if paver is None:
        raise refused(
            brief.source_file,
            "printer.size",
            "a printer too large for any paver that shops keep",
            f"{1e3 * (SIDES[-1] + 2.0 * OVERHANG):g} mm at most",
            "leave out --pick slab, or tell a slab of your own under [slab]",
        )
    return paver_keys(paver)


def to_buy(findings: Findings, brief: Brief, cards: Mapping[str, Material]) -> tuple[Item, ...]:
    """Return what to buy for what will be drawn, less what the user owns; no filament."""
    drawn = findings.design or to_design(brief, (), findings.dampers)
    return tuple(with_owned(goods(drawn, cut_list(drawn), cards), brief.stock.owned))


def solve(
    brief: Brief,
    cards: dict[str, Material],
    progress: Progress,
    pick: str = "",
    begin: Begin = here,
    reread: Reread | None = None,
) -> Findings:
    """Return all that is told of the best feet and dampers, or of the feet that are given.

    `pick` asks for the best of one kind of feet. Where a speed stays poor a paver is tried with
    what `reread` reads, if it is given. Raises InputError where the stock makes no pad at all,
    where what stands there now cannot hold the printer, or where it is to be kept and is not told
    or fails a check.
    """
    found = answered(brief, cards, progress, pick, begin, reread)
    return with_now(found, brief, cards, progress)


def answered(
    brief: Brief,
    cards: dict[str, Material],
    progress: Progress,
    pick: str = "",
    begin: Begin = here,
    reread: Reread | None = None,
) -> Findings:
    """Return the same as `solve`, but for what is told of the feet there now beside a search's."""
    question = Question(speeds=brief.motion.speeds, frequencies=())
    if brief.feet.given:
        return assess(brief, cards, question, None, begin, reread)
    installation, task = build_installation(brief, cards), build_feet_task(brief)
    now = build_now_stand(brief, cards)
    file = brief.source_file
    stood = held_standing(installation, now, question.speeds, file=file) if now else None
    wanted = pick or brief.stock.prefer
    stays = standing_now(installation, task, stood, file if wanted == KEEP else "")
    search = Search(
        task=task,
        installation=installation,
        offered=offered_feet(task, cards, file, wanted),
        baseline=now or installation.bumpers,
        prefer="" if wanted == KEEP else wanted,
    )
    found = best_feet(search, progress)
    keeps = stays is not None and (wanted == KEEP or (not wanted and found.gain < EQUAL_DB))
    feet = () if keeps else found.choice.feet
    mounting = (
        None if keeps else begin(mount, brief, cards, feet, draw(installation.printer.extras))
    )
    others = alternatives(search, found, stays)
    heard = [band for each in others if each.chosen and not keeps for band in each.heard]
    broken, limits = failing(found.choice.checks), installation.limits
    poor = keeps or is_poor(broken, heard)
    fail = bool(broken) or any(-band.high < limits.least_gain_db for band in heard)
    slabbed = with_paver(brief, reread) if poor else None
    paver = begin(under_paver, slabbed, cards, wanted, fail) if slabbed else None
    if mounting is None:
        under = None if paver is None else paver()
        return keep_now(brief, cards, question, found, (*others, *also(under)))
    begin(draw_ahead, brief, feet)
    material = cards[feet[0].pad.material]
    progress("listening to the feet", 0, 1)
    stand = feet_stand(brief.room, feet, material)
    chosen = appraise(installation, stand, question, now)
    progress("mounting the motors", 0, 1)
    ceiling, least = limits.promise_ceiling_db, limits.least_gain_db
    spoils = partial(spoiled, chosen, ceiling=ceiling, least=least)
    motors = mounting()
    if motors.whole is not None and spoils(motors.whole):
        # rarely: then they are chosen again with what the feet do by themselves
        motor_task = build_motor_task(brief, chosen.ceiling)
        motors = best_dampers(motor_task, installation.printer, cards, stand, spoils)
    chosen = with_dampers(chosen, motors.whole, ceiling, least)
    bounds = Bounds(task=task, limits=limits, modes=slowest_limit(brief.motion))
    told = with_all(
        with_modes(found.choice.checks, chosen, bounds),
        installation,
        stand,
        bounds,
        question.speeds,
        feet,
        material,
    )
    checks = (*told, *with_speed(heard_checks(chosen, bounds), chosen))
    under = None if paver is None else paver()
    worst, loud = loudest(chosen)
    trials: list[Remedy] = []
    if failing(checks):
        trials += of_paver(under, worst, failing(checks), loud)
        trials += of_softer_feet(search, found, cards, worst)
    return answer.findings(
        name=brief.name,
        slug=brief.slug,
        ceiling_db=chosen.ceiling,
        assumed=brief.assumed,
        warnings=brief.warnings,
        chosen=chosen,
        checks=checks,
        design=to_design(brief, feet, motors.dampers),
        cards=cards,
        now=None,
        motors=motors.results,
        material=material,
        tally=found.tally(),
        cloud=found.cloud,
        alternatives=(*others, *also(under)),
        remedy=best_remedy(checks, trials, loud),
        noise=brief.noise.answers,
    )
