"""Receptance of an endless thin plate under several feet, forces and moments.

Time factor e^{+jωt}. With k⁴ = m″ω²/B and B complex by its loss factor the deflection under a
force at distance r is

    W(r) = 1/(8Bk²) · (−j)·[H0⁽²⁾(kr) − j(2/π)·K0(kr)],

whose mobility at r = 0 is 1/(8√(Bm″)); Cremer, Heckl & Petersson, Structure-Borne Sound, ch. 5.
Moments are the force's derivatives. Under its own footprint (disc of radius a, `footprint`) the
integral over all waves has a closed form, by ∫J_ν(ka)²·k/(k² + κ²) dk = I_ν(κa)·K_ν(κa):

    w/F = −(1/(πBk²x²))·[1 + j(π/2)·J1·H1⁽²⁾ − I1·K1],
    θ/M = −(8/(πBx⁴))·[½ + j(π/2)·J2·H2⁽²⁾ − I2·K2],    x = ka,

which for small x are −j/(8Bk²) and (ln(1/x) + ln 2 − γ + 11/24 − jπ/4)/(4πB): a moment's mobility
ω/(16B) with the plate's local give beside it. [derived]
"""

from __future__ import annotations

import math

import numpy as np
from scipy import special

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies import footprint

SMALL = 0.01
"""Below this x the closed form of the moment loses digits and its limit is right to 1e-4."""
OFFSET = math.log(2.0) - float(np.euler_gamma) + 11.0 / 24.0


def receptance(
    bending: complex, mass_per_area: float, contacts: Array, width: Array, frequency: Array
) -> Complex:
    """Return the receptance (f, 3s, 3s) of s contacts, each (w, θx, θy) by (Fz, Mx, My).

    `bending` [N·m], complex by its loss; `mass_per_area` [kg/m²]; `contacts` (s, 2) [m]; `width`
    (s,) [m] of each; `frequency` (f,) [Hz], above 0. Contacts do not overlap: what lies nearer
    than that is taken as touching. [m/N, 1/N, 1/(N·m)].
    """
    omega = 2.0 * math.pi * np.asarray(frequency, dtype=float)
    wave: Complex = np.sqrt(omega * np.sqrt(mass_per_area / complex(bending)))
    count = len(contacts)
    found = np.zeros((len(omega), count, 3, count, 3), dtype=complex)
    for row in range(count):
        force, moment = driving_point(bending, wave, float(width[row]))
        found[:, row, 0, row, 0] = force
        found[:, row, 1, row, 1] = found[:, row, 2, row, 2] = moment
        for column in range(row):
            apart = contacts[row] - contacts[column]
            block = _transfer(bending, wave, apart, float(width[row]), float(width[column]))
            found[:, row, :, column] = block
            found[:, column, :, row] = np.swapaxes(block, -1, -2)
    return found.reshape(len(omega), 3 * count, 3 * count)


def driving_point(bending: complex, wave: Complex, width: float) -> tuple[Complex, Complex]:
    """Return w/F and θ/M (f,) under a contact's own footprint; `wave` (f,) is k [1/m]."""
    x = np.asarray(wave, dtype=complex) * width / 2.0

    def both(order: int) -> Complex:
        swung = 0.5j * math.pi * special.jv(order, x) * special.hankel2(order, x)
        return np.asarray(swung - special.iv(order, x) * special.kv(order, x))

    force = -(1.0 + both(1)) / (math.pi * bending * wave**2 * x**2)
    limit = (OFFSET - np.log(x) - 0.25j * math.pi) / (4.0 * math.pi * bending)
    moment = -8.0 * (0.5 + both(2)) / (math.pi * bending * x**4)
    return force, np.where(np.abs(x) < SMALL, limit, moment)


def _transfer(bending: complex, wave: Complex, apart: Array, own: float, other: float) -> Complex:
    """Return the block (f, 3, 3) from one contact to another that lies −`apart` (2,) [m] off."""
    r = float(np.hypot(*apart))
    x, y = apart / r if r > 0.0 else np.array([1.0, 0.0])
    r = max(r, 0.5 * (own + other))
    z = wave * r
    swung = [footprint.of_wave(wave * each / 2.0) for each in (own, other)]
    near = [footprint.of_near_field(wave * each / 2.0) for each in (own, other)]
    scale = 1.0 / (4.0 * math.pi * bending * wave**2)
    hankel = -0.5j * math.pi * scale

    def radial(a: int, b: int) -> tuple[Complex, Complex, Complex]:
        """Return g, g' and g'' at r, as felt by part `a` of the one, `b` of the other."""
        first, second = hankel * swung[0][a] * swung[1][b], -scale * near[0][a] * near[1][b]
        h0, h1 = special.hankel2(0, z), special.hankel2(1, z)
        k0, k1 = special.kv(0, z), special.kv(1, z)
        return (
            first * h0 + second * k0,
            -wave * (first * h1 + second * k1),
            wave**2 * (first * (h1 / z - h0) + second * (k0 + k1 / z)),
        )

    _, from_moment, _ = radial(0, 1)
    _, to_turn, _ = radial(1, 0)
    _, slope, curve = radial(1, 1)
    xx, yy = curve * x * x + slope / r * y * y, curve * y * y + slope / r * x * x
    xy = (curve - slope / r) * x * y
    rows = [
        [radial(0, 0)[0], -from_moment * y, from_moment * x],
        [to_turn * y, -yy, xy],
        [-to_turn * x, xy, -xx],
    ]
    return np.moveaxis(np.array(rows), -1, 0)
