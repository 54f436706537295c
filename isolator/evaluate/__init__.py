"""Candidates and given feet → modes, losses, sway: in batches, one code path for all."""
