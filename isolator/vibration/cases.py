"""One set of feet over all its cases: modulus at both ends of its band, mass light to heavy."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from isolator.physics.arrays import Array
from isolator.physics.bodies.rigid import match_modes, mode_names
from isolator.vibration.band import Band
from isolator.vibration.printer import RigidPrinter
from isolator.vibration.results import Mode
from isolator.vibration.stand import ENDS, Stand
from isolator.vibration.system import Modes, System, build, exact_modes

NOMINAL = ("nominal", "nominal")

Found = TypeVar("Found")


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A stand at one end of its band under one mass case."""

    end: str
    mass: str
    system: System  # a batch of one
    modes: Modes
    names: tuple[str, ...]  # of the modes, ascending
    tilt: tuple[float, float]
    height: float  # of the printer's underside over the desk, unloaded [m]
    widths: Array  # (s,) of what each foot stands on [m]

    @property
    def places(self) -> Array:
        """Return where the feet stand (s, 2) [m]."""
        return self.system.feet.centres[0, :, :2]


Key = tuple[str, str]
"""(end of the band, mass case)."""
Cases = dict[Key, Case]


def all_cases(stand: Stand, printer: RigidPrinter) -> Cases:
    """Return every case by (end, mass): modulus and temperature × mass range."""
    ends = ENDS if stand.material is not None else ("nominal",)
    masses = printer.cases if printer.light.mass != printer.heavy.mass else (printer.nominal,)
    solved = {}
    for end in ends:
        for mass in masses:
            feet, tilt = stand.settled(mass, end)
            system = build(feet, mass)
            solved[end, mass.name] = (system, exact_modes(system), tilt)
    system, modes, _ = solved[NOMINAL]
    names, shapes = mode_names(modes.shapes[0], system.mass), modes.shapes[0]
    return {
        (end, mass): Case(
            end=end,
            mass=mass,
            system=system,
            modes=modes,
            tilt=tilt,
            height=stand.height,
            widths=stand.widths,
            # a mode keeps the name of the nominal mode whose shape it has
            names=tuple(names[i] for i in match_modes(modes.shapes[0], shapes, system.mass)),
        )
        for (end, mass), (system, modes, tilt) in solved.items()
    }


def framed(cases: Cases) -> list[tuple[Key, float]]:
    """Return every case, the nominal one first, with a factor on its frame's frequencies.

    All have the frame at its nominal frequencies; the nominal case has it at both ends too.
    """
    rows = [(key, 1.0) for key in (NOMINAL, *(key for key in cases if key != NOMINAL))]
    bending = cases[NOMINAL].system.case.bending
    ends = () if bending is None else (bending.scales[0], bending.scales[2])
    return [*rows, *((NOMINAL, scale) for scale in ends)]


def band(values: Sequence[float], nominal: float) -> Band:
    """Return the band of some values round a nominal one.

    >>> band([3.0, 1.0, 2.0], 2.0)
    Band(low=1.0, nominal=2.0, high=3.0)
    """
    return Band(low=float(min(values)), nominal=float(nominal), high=float(max(values)))


def over(found: Mapping[Key, Found], value: Callable[[Found], float]) -> Band:
    """Return the band of one value over all cases, of the cases or of what is found of each."""
    return band([value(each) for each in found.values()], value(found[NOMINAL]))


def named_modes(cases: Cases) -> tuple[Mode, ...]:
    """Return the six modes with their bands, ascending by nominal frequency."""
    nominal = cases[NOMINAL]

    def mode(index: int, name: str) -> Mode:
        return Mode(
            name=name,
            frequency=over(
                cases, lambda case: float(case.modes.frequency[0, case.names.index(name)])
            ),
            damping_ratio=float(nominal.modes.damping[0, index]),
        )

    return tuple(mode(index, name) for index, name in enumerate(nominal.names))


def highest(cases: Cases) -> Band:
    """Return the band of the highest mode's frequency [Hz]."""
    return over(cases, lambda case: float(case.modes.frequency[0, -1]))
