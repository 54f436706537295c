"""The printer on its feet: masses, excitation, supports, modes, isolation, sway, desk, curves. It
works with numbers and arrays of cases, knows no stock, no screws and no sentences, and chooses
nothing.
"""
