"""One set of feet over samples drawn from all spreads at once, and bands of what is told of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array
from isolator.physics.bodies.rigid import match_modes, mode_names
from isolator.vibration.band import Band
from isolator.vibration.desk import StoodOn, Under, under
from isolator.vibration.excitation import Excitation, Push
from isolator.vibration.on_slab import Between
from isolator.vibration.printer import MassCase, RigidPrinter
from isolator.vibration.results import Mode
from isolator.vibration.source import Source, joined, motor_source, push_source
from isolator.vibration.spreads import SHARE, Samples, ends
from isolator.vibration.stand import Stand
from isolator.vibration.system import Modes, System, build_each, exact_modes

ROWS = 16
"""Samples taken at a time over many frequencies, to stay within memory."""
THREADS = 2
"""Such groups worked out side by side: the arithmetic of arrays lets another thread run."""
KEPT = 2
"""Lists of frequencies at which a sample's source is kept: what stood there before is asked at the
same ones."""

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Above:
    """What stands on the feet in one sample: the printer's state, its drives and its frame."""

    case: MassCase
    excitation: Excitation
    frame: float  # factor on the frame's frequencies
    between: Between  # and on what the feet between printer and slab are
    made: dict[bytes, Source] = field(default_factory=dict, compare=False, repr=False)
    """Sources by the bytes of their frequencies and pushes, the last `KEPT` of them."""

    def motor_source(self, grid: Array) -> Source:
        """Return the source under 1 N·m at each belt motor at `grid` (f,) [Hz]."""
        return self._kept(
            grid.tobytes(),
            lambda: motor_source(
                self.excitation, self.case, grid, self.frame, between=self.between
            ),
        )

    def push_source(self, grid: Array, pushes: Sequence[Push]) -> Source:
        """Return the source under each of `pushes` on the frame at `grid` (f,) [Hz]."""
        parts = (part for push in pushes for part in (push.force, push.moment, push.point))
        return self._kept(
            grid.tobytes() + b"".join(part.tobytes() for part in parts),
            lambda: push_source(
                self.excitation, self.case, grid, pushes, self.frame, between=self.between
            ),
        )

    def _kept(self, key: bytes, make: Callable[[], Source]) -> Source:
        found = self.made.get(key)
        if found is None:
            found = make()
            while len(self.made) >= KEPT:
                del self.made[next(iter(self.made))]
            self.made[key] = found
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Sampled:
    """A stand in n samples, the nominal one first."""

    system: System
    modes: Modes
    names: tuple[str, ...]  # of the nominal modes, ascending
    order: NDArray[np.intp]  # (n, 6) which mode has the shape of each nominal one
    above: tuple[Above, ...]  # (n,)
    height: float  # of the printer's underside over the desk, unloaded [m]
    widths: Array  # (s,) of what each foot stands on [m]

    def desk(self, desk: StoodOn, frequency: Array) -> Under:
        """Return the desk under these feet at `frequency` (f,) [Hz]."""
        places = self.system.feet.centres[0, :, :2]
        return under(desk, places, self.widths, self.height, frequency)

    def take(self, rows: NDArray[np.intp]) -> Sampled:
        """Return the samples at `rows`."""
        modes = self.modes
        return Sampled(
            system=self.system.take(rows),
            modes=Modes(
                frequency=modes.frequency[rows],
                shapes=modes.shapes[rows],
                damping=modes.damping[rows],
            ),
            names=self.names,
            order=self.order[rows],
            above=tuple(self.above[row] for row in rows),
            height=self.height,
            widths=self.widths,
        )

    def frequency(self, name: str) -> Array:
        """Return the frequency (n,) [Hz] of the mode that has a nominal one's shape."""
        column = self.order[:, self.names.index(name)]
        return self.modes.frequency[np.arange(len(column)), column]


def sampled(
    stand: Stand,
    printer: RigidPrinter,
    excitation: Excitation,
    samples: Samples,
    which: str,
    like: Sampled | None = None,
) -> Sampled:
    """Return a stand in all `samples`; `which` of `spreads.STANDS` it is.

    Another one of the same printer, excitation and samples, `like`, lends what stands on it.
    """
    if like is not None and stand.printer is None:
        above = like.above
    else:
        above = all_above(stand.printer or printer, excitation, samples)
    feet = stand.sampled([each.case for each in above], samples, which)
    system = build_each(feet, [each.case for each in above])
    modes = exact_modes(system)
    first = modes.shapes[0]
    order = [
        np.argsort(match_modes(shapes, first, mass))
        for shapes, mass in zip(modes.shapes, system.mass, strict=True)
    ]
    return Sampled(
        system=system,
        modes=modes,
        names=tuple(mode_names(first, system.mass[0])),
        order=np.array(order),
        above=above,
        height=stand.height,
        widths=stand.widths,
    )


def all_above(printer: RigidPrinter, excitation: Excitation, samples: Samples) -> tuple[Above, ...]:
    """Return what stands on the feet in every sample."""
    bending, slab = printer.nominal.bending, printer.nominal.on_slab
    frame = samples.factor("frame", 1.0 if bending is None else bending.spread)
    spread = Between() if slab is None else slab.spread
    between = map(
        Between,
        samples.factor("between", spread.stiffness).tolist(),
        samples.factor("loss between", spread.loss).tolist(),
    )
    drives = zip(samples.factor("belt"), samples.factor("field"), strict=True)
    return tuple(
        Above(
            case=printer.at(shares),
            excitation=_driven(excitation, float(belt), float(field)),
            frame=float(bent),
            between=held,
        )
        for shares, (belt, field), bent, held in zip(
            samples.extras, drives, frame, between, strict=True
        )
    )


def _driven(excitation: Excitation, belt: float, field: float) -> Excitation:
    """Return an excitation with belts and fields stiffer by a factor."""
    drives = tuple(
        drive._replace(
            belt_stiffness=belt * drive.belt_stiffness,
            magnetic_stiffness=field * drive.magnetic_stiffness,
        )
        for drive in excitation.drives
    )
    return replace(excitation, drives=drives)


def over_motors(found: Sampled, grid: Array, then: Callable[[System, Source], T]) -> list[T]:
    """Return what `then` makes of systems and sources of some rows each, rows in order.

    The sources are those under 1 N·m at each belt motor, at `grid` (f,) [Hz].
    """
    return _over_rows(found, lambda above: above.motor_source(grid), then)


def over_pushes(
    found: Sampled, grid: Array, pushes: Sequence[Push], then: Callable[[System, Source], T]
) -> list[T]:
    """Return the same under pushes on the frame."""

    return _over_rows(found, lambda above: above.push_source(grid, pushes), then)


def _over_rows(
    found: Sampled, one: Callable[[Above], Source], then: Callable[[System, Source], T]
) -> list[T]:
    def group(begin: int) -> T:
        rows = np.arange(begin, min(begin + ROWS, len(found.above)))
        source = joined([one(found.above[row]) for row in rows])
        return then(found.system.take(rows), source)

    starts = range(0, len(found.above), ROWS)
    if len(starts) == 1:
        return [group(0)]
    with ThreadPoolExecutor(THREADS) as pool:
        return list(pool.map(group, starts))


def sampled_modes(found: Sampled, modes: Sequence[Mode]) -> tuple[Mode, ...]:
    """Return modes with the bands of their frequencies over samples."""
    return tuple(replace(mode, frequency=sample_band(found.frequency(mode.name))) for mode in modes)


def sample_band(values: Array, share: float = SHARE) -> Band:
    """Return the band of values (n,) over samples, the nominal one first, `share` of them in it."""
    low, high = ends(values, share)
    return Band(low=float(low), nominal=float(values[0]), high=float(high))
