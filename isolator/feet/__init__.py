"""Feet: candidates, screening in batches, ranking, checks of the chosen, sizes of their printed
parts, what screws and attachments carry, pads of their own for unequal loads. What the printer does
on given feet is worked out in `vibration`; what is drawn stands in `design`.
"""
