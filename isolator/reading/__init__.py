"""How text becomes values: units, faults, tables of keys, notes taken while reading, words of the
command line. What a key means belongs to the room that owns it (`brief`, `cards`, `design`).
"""
