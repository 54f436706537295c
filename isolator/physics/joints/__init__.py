"""Joints: what screws, flanges, plastic and glue carry, and ISO fits. Sizes of sold hardware stand
in `isolator.design`.
"""
