"""Designs vibration-isolating feet and motor mounts for belt-driven desktop 3D printers.

Rooms, top to bottom: cli, commands, report, workshop and motors, feet, vibration, brief and cards,
design, reading and physics. Imports go down only.
"""
