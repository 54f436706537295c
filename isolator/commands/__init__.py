"""Whole commands, one a file, read from top to bottom: paper in, work done by the rooms below,
files out. Here a brief is turned into the records of numbers that the rooms below work with, here
the drawing office is called, and here output is written whole or not at all. No physics, no
judgement and no sentence belongs here.
"""
