"""Motors, parts and their pictures: what may be done in a second process, ahead of being needed.

The kernel is loaded and parts are drawn once in a process, which keeps the last of them: solids
are not sent from one to the other.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from isolator.brief import Brief
from isolator.brief.metal import Strip
from isolator.cards import Material
from isolator.commands.beside import tell
from isolator.commands.pictures import Shown, scenes_of
from isolator.commands.to_design import to_design
from isolator.commands.write_parts import Files, draw_sheet, write_files
from isolator.design import Design, Foot
from isolator.motors.dampers import MountedMotors, best_dampers
from isolator.motors.task import build_motor_task
from isolator.vibration.evaluation import ceiling_of
from isolator.vibration.installation import build_installation
from isolator.vibration.spreads import Samples
from isolator.vibration.stand import feet_stand
from isolator.workshop.step import Step


class _Kept(NamedTuple):
    """Parts as they were drawn from a sheet."""

    drawing: Design
    parts: list[Any]


_kept: list[_Kept] = []
_mounted: list[MountedMotors] = []


def mount(
    brief: Brief, cards: dict[str, Material], feet: tuple[Foot, ...], samples: Samples
) -> MountedMotors:
    """Return what was found of all motors of a printer on `feet`, in `samples` of all spreads.

    Who asks draws them: what it takes is slow to load, and is not needed here for anything else.
    """
    installation = build_installation(brief, cards)
    stand = feet_stand(brief.room, feet, cards[feet[0].pad.material])
    task = build_motor_task(brief, ceiling_of(installation, stand))
    found = best_dampers(task, installation.printer, cards, stand, samples=samples)
    _mounted[:] = [found]
    return found


def draw_ahead(brief: Brief, feet: tuple[Foot, ...]) -> None:
    """Draw `feet`, and the dampers of the motors that this process has mounted last."""
    _parts(to_design(brief, feet, _mounted[-1].dampers))


def write_kit(drawing: Design, folder: Path) -> Files:
    """Write every file of a sheet but its PDFs."""
    return write_files(drawing, _parts(drawing), folder, tell)


def kit_scenes(
    drawing: Design, steps: Sequence[Step], metal: Sequence[Strip]
) -> Mapping[str, Shown]:
    """Return what the pictures of a sheet show that was drawn here."""
    return scenes_of(drawing, _parts(drawing), steps, metal, tell)


def _parts(drawing: Design) -> list[Any]:
    """Return the parts of a sheet, drawn unless they are the last that were."""
    if not _kept or _kept[-1].drawing != drawing:
        _kept[:] = [_Kept(drawing, draw_sheet(drawing, tell))]
    return _kept[-1].parts
