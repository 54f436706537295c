"""Torque at a current, at a speed, and asked by a move."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isolator.physics.drive.torque import (
    needed_crossed,
    needed_torque,
    reference_voltage,
    torque_at_current,
    torque_at_speed,
)

MOTOR = {"holding": 0.44, "rated": 1.7, "resistance": 1.6, "inductance": 2.8e-3}


@given(turns=st.floats(0.01, 60.0), voltage=st.floats(5.0, 48.0), current=st.floats(0.1, 2.5))
def test_the_supply_is_never_overdrawn(turns, voltage, current) -> None:
    torque = float(
        torque_at_speed(**MOTOR, current=current, voltage=voltage, turns=turns, steps_per_turn=200)
    )
    k = 0.44 / math.sqrt(2.0) / 1.7
    flowing = torque / k
    emf, electrical = k * math.tau * turns, math.tau * turns * 50
    assert 0.0 <= flowing <= current * (1 + 1e-12)
    if flowing > 0:
        drawn = math.hypot(1.6 * flowing + emf, electrical * 2.8e-3 * flowing)
        assert drawn <= voltage * (1 + 1e-9)
        if flowing < current * (1 - 1e-9):  # then the supply is what bounds it
            assert drawn == pytest.approx(voltage, rel=1e-9)


def test_a_motor_bound_by_its_supply_in_time() -> None:
    """Winding voltages and shaft power sampled over a turn, against the phasors."""
    turns, steps, supply = 14.0, 200, 24.0
    torque = float(
        torque_at_speed(**MOTOR, current=1.5, voltage=supply, turns=turns, steps_per_turn=steps)
    )
    k = 0.44 / math.sqrt(2.0) / 1.7
    assert 0.0 < torque < 1.5 * k  # the supply binds, not the set current
    time = np.linspace(0.0, 1.0 / turns, 40001)
    angle = math.tau * turns * time * steps / 4
    flux = np.stack([np.sin(angle), np.cos(angle)])  # two windings, a quarter period apart
    current, emf = torque / k * flux, k * math.tau * turns * flux
    terminal = 1.6 * current + 2.8e-3 * np.gradient(current, time, axis=1) + emf
    # differences over 800 samples a period err by (2π/800)²/6
    assert terminal[:, 1:-1].max() == pytest.approx(supply, rel=2e-5)
    shaft = (current * emf).sum(axis=0).mean()
    assert shaft == pytest.approx(torque * math.tau * turns, rel=1e-9)  # all of it turns the shaft


def test_slow_motors_pull_what_their_current_gives_and_fast_ones_nothing() -> None:
    slow, fast = (
        float(torque_at_speed(**MOTOR, current=1.1, voltage=24.0, turns=turns, steps_per_turn=400))
        for turns in (0.1, 40.0)
    )
    assert slow == pytest.approx(float(torque_at_current(0.44, 1.1, 1.7)))
    assert fast == 0.0  # back-emf above the supply


def test_needed_torque_is_newtons_law_through_the_pulley() -> None:
    # 0.7 kg at 3 m/s² on 6 mm is 12.6 mN·m; a rotor of 60 g·cm² at 500 rad/s² is 3 mN·m
    assert needed_torque(3.0, 0.7, 60e-7, 6e-3) == pytest.approx(12.6e-3 + 3.0e-3)


@given(
    x=st.floats(0.1, 2.0),
    y=st.floats(0.1, 2.0),
    rotor=st.floats(1e-6, 2e-5),
    radius=st.floats(3e-3, 2e-2),
)
def test_crossed_belts_ask_most_in_the_worst_direction(x, y, rotor, radius) -> None:
    """Against a sweep of Newton's law over directions: two belts, x = (A + B)/2, y = (A − B)/2."""
    angle = np.linspace(0.0, math.tau, 3601)
    ax, ay = 2.5 * np.cos(angle), 2.5 * np.sin(angle)
    # belt pulls from m_x·a_x = F_A + F_B and m_y·a_y = F_A − F_B
    pull = np.linalg.solve([[1, 1], [1, -1]], np.stack([x * ax, y * ay]))[0]
    swept = np.abs(pull * radius + rotor * (ax + ay) / radius).max()
    assert needed_crossed(2.5, (x, y), rotor, radius) == pytest.approx(swept, rel=1e-6)


def test_reference_voltage() -> None:
    assert reference_voltage(0.9, 0.05, 8.0) == pytest.approx(0.36)
