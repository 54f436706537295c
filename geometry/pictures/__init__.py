"""Pictures: parts shaded, feet cut open, dampers pulled apart, every step of assembly. Drawings
with dimensions to work from belong to `sheets`.
"""
