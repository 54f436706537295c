"""What an edited sheet cannot be drawn with, and what in it no longer fits the rest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from isolator.cards import Material
from isolator.commands.known_cards import not_poured, unknown_card
from isolator.design import Design, Foot
from isolator.feet.sizing import label_of, stop_share
from isolator.physics.rubber.large_strain import bulge
from isolator.reading.faults import Fault, InputError
from isolator.reading.printable import printable
from isolator.reading.units import format_quantity
from isolator.report.findings import Findings

STALE = 0.05
"""By how much of itself a sag or a stop may be off before it is told: sheets are rounded."""
FINEST = 0.02e-3
"""No difference below this is told [m]: nobody measures it."""


def refuse_sheet(sheet: Path, design: Design, cards: Mapping[str, Material]) -> None:
    """Raise InputError for cards nobody has, and for pads that have no room in their cups."""
    file = printable(str(sheet))
    known = dict(cards)
    faults: list[Fault] = []
    for number, foot in enumerate(design.feet, 1):
        material = cards.get(foot.pad.material)
        if material is None:
            key = f"foot[{number}].pad.material"
            faults.append(unknown_card(file, key, foot.pad.material, known))
        elif foot.build.rimmed and not foot.pad.outline.halved:
            faults += _room(file, f"foot[{number}].side_room", foot, material)
    faults += [
        unknown_card(file, f"motor_damper[{number}].material", damper.material, known)
        for number, damper in enumerate(design.motor_dampers, 1)
        if damper.material not in cards and not damper.bought
    ]
    faults += [
        not_poured(file, f"motor_damper[{number}].material", cards[damper.material], known)
        for number, damper in enumerate(design.motor_dampers, 1)
        if damper.cast and damper.material in cards and not cards[damper.material].cast
    ]
    if faults:
        raise InputError(faults)


def _room(file: str, key: str, foot: Foot, material: Material) -> Iterator[Fault]:
    """Yield the fault of a pad that its cup holds fast once it is squeezed by its usual load."""
    wide = max(foot.pad.first, foot.pad.second)
    needed = _swell(foot, material, foot.sag)
    if foot.side_room > 0.0 and foot.side_room >= needed:
        return
    room = _swell(foot, material, foot.stop)
    yield Fault(
        file=file,
        key=key,
        got=f"{format_quantity(foot.side_room, 'mm')} round a pad "
        f"{format_quantity(wide, 'mm')} wide, which is larger than its cup under its load",
        wanted=f"more than {format_quantity(needed, 'mm', 3)}",
        suggestion=f"{format_quantity(room, 'mm', 3)} is room enough up to the stop",
    )


def _swell(foot: Foot, material: Material, compression: float) -> float:
    """Return how far each side of the pad moves out [m] when it is pressed down so far [m]."""
    poisson = 0.5 if material.poisson is None else material.poisson.value
    strain = min(compression / foot.pad.thickness, 0.9)
    return float(bulge(max(foot.pad.first, foot.pad.second), strain)) * min(2.0 * poisson, 1.0)


def stale(design: Design, findings: Findings | None, cards: Mapping[str, Material]) -> list[str]:
    """Return a sentence for every sag, stop and label that no longer fits its foot."""
    sags = iter([] if findings is None else [state.sag for state in findings.chosen.feet])
    told: list[str] = []
    for number, foot in enumerate(design.feet, 1):
        solved = [next(sags, None) for _ in foot.positions]
        known = [sag for sag in solved if sag is not None]
        told += _stale_foot(f"foot[{number}]", foot, known, cards[foot.pad.material])
    return told


def _stale_foot(key: str, foot: Foot, sags: list[float], material: Material) -> Iterator[str]:
    if sags:
        sag = sum(sags) / len(sags)
        if _off(foot.sag, sag):
            yield _says(f"{key}.sag", foot.sag, sag, "under the printer's weight")
    if foot.build.rimmed:
        stop = foot.pad.thickness * stop_share(material, foot.pad.shape)
        if _off(foot.stop, stop, layer=0.4e-3):
            yield _says(f"{key}.stop", foot.stop, stop, "for this pad")
    label = label_of(foot.pad, foot.name)
    if foot.label and foot.label != label:
        yield (
            f'{key}.label: the sheet says "{printable(foot.label)}", and that is engraved; '
            f'this foot is "{printable(label)}"'
        )


def _off(told: float, true: float, layer: float = 0.0) -> bool:
    return abs(told - true) > max(STALE * true, FINEST, layer)


def _says(key: str, told: float, true: float, when: str) -> str:
    said, found = (format_quantity(value, "mm", 3) for value in (told, true))
    return f"{key}: the sheet says {said}; it is {found} {when}"
