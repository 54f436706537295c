"""Measurement at home: squash test, tap, test moves, before and after, order map, triage. What is
worked out of readings and recordings, and set beside what the model says. Reading files belongs to
`recordings`, formulas to `physics`.
"""
