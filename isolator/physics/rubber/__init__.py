"""Elastic pads: rubber, foam and printed lattices, small and large strain, over frequency. Rigid
bodies on such pads belong to `bodies`.
"""
