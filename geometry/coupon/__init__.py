"""The fit coupon: its solid, its files and the sheet that goes with it. Feet and dampers have rooms
of their own.
"""
