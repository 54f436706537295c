"""Designs vibration-isolating feet and motor mounts for belt-driven desktop 3D printers."""
