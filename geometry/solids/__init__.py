"""Solids and how they are measured: outlines, features, fasteners' holes, parts as records, meshes,
bridges and walls. Nothing here knows what a part is for.
"""
