"""Printed parts of feet: cups, soles, printed feet, half-ball seats, what an attachment adds,
treads, slab lips. What parts of motors share with them belongs to `solids`.
"""
