"""One set of feet over all its cases: modulus at both ends of its band, mass light to heavy."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from isolator.physics.arrays import Array
from isolator.physics.bodies.rigid import match_modes, mode_names
from isolator.vibration.band import Band
from isolator.vibration.printer import RigidPrinter
from isolator.vibration.results import Mode
from isolator.vibration.stand import ENDS, Stand
from isolator.vibration.system import Modes, System, build, exact_modes

NOMINAL = ("nominal", "nominal")


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


def over(cases: Cases, value: Callable[[Case], float]) -> Band:
    """Return one value's range over all cases."""
    values = [value(each) for each in cases.values()]
    return Band(low=min(values), nominal=value(cases[NOMINAL]), high=max(values))


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
