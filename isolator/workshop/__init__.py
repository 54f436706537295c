"""What is made and bought, and how it goes together: parts list, shopping list, hardware, glue and
the steps of assembly, all read from the drawing sheet. Choosing and judging feet or dampers does
not belong here; neither do solids.
"""
