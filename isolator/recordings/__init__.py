"""Recordings that users bring: what a file of an accelerometer or a sound recorder says, and a
verdict on its data. Nothing is interpolated in silence. What follows from a recording belongs to
`measuring`, formulas to `physics.signals`.
"""
