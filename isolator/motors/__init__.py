"""Dampers between motors and frame: candidates, belt load, modes, torque and floor force, choice,
and what a damper means for shaft, screws, heat and drive. Feet belong to `feet`, the printer's
dynamics to `vibration`, formulas to `physics`.
"""
