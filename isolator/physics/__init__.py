"""Formulas: floats and arrays in, floats and arrays out, each with units, limits and source. No
record of this program, no file and no unit library comes in here.
"""
