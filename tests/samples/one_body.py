"""One rigid body on feet of known stiffness, and what the tool's own evaluation makes of it."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.bodies.condense import condense
from isolator.vibration.desk import Under
from isolator.vibration.isolation import decibel, on_desk, passed
from isolator.vibration.printer import MassCase
from isolator.vibration.source import Source
from isolator.vibration.supports import FeetBatch
from isolator.vibration.system import System, build, exact_modes

Array = NDArray[np.float64]

KILOGRAMS = 11.3
INERTIA = np.array([[0.41, 0.013, -0.022], [0.013, 0.37, 0.017], [-0.022, 0.017, 0.29]])
# three equal feet about the centre of mass, level with it
LEVEL = np.array([[0.2, 0.1, 0.0], [-0.1, 0.15, 0.0], [-0.1, -0.25, 0.0]])
HERTZ = 30.0


def on_feet(
    linear: ArrayLike,
    loss: ArrayLike,
    *,
    arms: Array = LEVEL,
    angular: ArrayLike = 0.0,
    load: ArrayLike = 0.0,
    kilograms: float = KILOGRAMS,
) -> System:
    """Return n systems of three feet: `linear`, `angular` (n, 3, 3), `loss`, `load` (n, 3) [SI].

    `arms` (3, 3) [m] from the centre of mass. Stiffnesses do not change with frequency.
    """
    stiffness = np.asarray(linear, dtype=float)
    count = len(stiffness)
    each = np.zeros((count, 3))
    feet = FeetBatch(
        centres=np.broadcast_to(arms, (count, 3, 3)),
        linear=stiffness,
        angular=stiffness * 0.0 + angular,
        loss=each + loss,
        ratio=np.ones(count),
        alpha=np.zeros(count),
        reference=np.ones(count),
        load=each + load,
        strain=each,
        sag=each,
        buckling=each,
        mass=each,
    )
    return build(feet, MassCase(name="one", mass=kilograms, com=np.zeros(3), inertia=INERTIA))


class Losses(NamedTuple):
    """What n systems make of one push at t frequencies; every array (n, t)."""

    force: Array  # norm of all foot forces [N]
    transmissibility: Array
    insertion_loss: Array  # [dB]
    on_desk: Array  # [dB]


def rigid_source(system: System, hertz: ArrayLike, push: ArrayLike) -> Source:
    """Return the body of a system under one `push` (6,) about its centre, at `hertz` (t,)."""
    frequency = np.atleast_1d(np.asarray(hertz, dtype=float))
    force = np.asarray(push, dtype=complex)[:, None]
    found = condense(np.zeros((6, 6)), system.mass, 2 * np.pi * frequency, force)
    return Source(frequency=frequency, dynamic=found.dynamic[None], blocked=found.blocked[None])


def upright(mobility: float, hertz: Array, feet: int) -> Under:
    """Return a desk of one `mobility` [m/(N·s)] upright under each foot, each by itself."""
    own = np.diag(np.tile([1.0, 0.0, 0.0], feet))
    give = mobility / (2j * np.pi * hertz)
    return Under(receptance=give[:, None, None] * own, height=0.0)


def pushed(system: System, hertz: ArrayLike, push: ArrayLike, mobility: float = 0.0) -> Losses:
    """Return what n systems make of one `push` (6,) about their centre; arrays (n, t).

    `hertz` (t,); `mobility` [m/(N·s)] of the desk under each foot.
    """
    source = rigid_source(system, hertz, push)
    found = passed(system, source)
    felt = on_desk(system, source, upright(mobility, source.frequency, system.arms.shape[1]))
    return Losses(
        force=np.sqrt(found.feet[..., 0]),
        transmissibility=np.sqrt(found.feet / found.static)[..., 0],
        insertion_loss=decibel(found.rigid, found.feet)[..., 0],
        on_desk=decibel(felt.rigid, felt.feet)[..., 0],
    )


def bounced(ratio: ArrayLike, loss: ArrayLike) -> Losses:
    """Return what upright feet make of an upright push; arrays (n, 1).

    `ratio` (n,) of the exciting over the natural frequency, `loss` factor (n,) at that frequency.
    """
    r, eta = np.broadcast_arrays(
        *(np.atleast_1d(np.asarray(x, dtype=float)) for x in (ratio, loss))
    )
    each = KILOGRAMS * (2 * np.pi * HERTZ / r) ** 2 / 3
    linear = np.broadcast_to(each[:, None, None], (len(r), 3, 3))
    return pushed(on_feet(linear, eta[:, None]), HERTZ, [0, 0, 1, 0, 0, 0])


def natural_frequency(stiffness: float, mass: float) -> float:
    """Return the bounce [Hz] of `mass` [kg] on three feet of `stiffness` [N/m] together."""
    each = np.full((1, 3, 3), stiffness / 3) * [1e-3, 1e-3, 1.0]
    modes = exact_modes(on_feet(each, 0.0, kilograms=mass))
    return float(modes.frequency[0, np.argmax(np.abs(modes.shapes[0, 2]))])


def hysteretic(ratio: ArrayLike, loss: ArrayLike) -> Array:
    """Return the transmissibility (n,) of feet with loss factor η."""
    return bounced(ratio, loss).transmissibility[:, 0]


def viscous(ratio: ArrayLike, damping: ArrayLike) -> Array:
    """Return the transmissibility (n,) of feet k + jωc: a loss factor 2ζr."""
    return hysteretic(ratio, 2 * np.asarray(damping, dtype=float) * np.asarray(ratio, dtype=float))
