"""Printed parts of motor dampers: plates, wedges, spacers, moulds and templates' solids, with their
rules of clearance. Choosing a damper does not belong here.
"""
