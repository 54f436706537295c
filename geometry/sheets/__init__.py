"""Drawings on paper: drawing sheets, templates, cut plans, nested sheets, DXF. Shaded pictures
belong to `pictures`.
"""
