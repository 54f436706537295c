"""File formats of solids: STEP, STL, 3MF, GLB and beds of parts. Drawings on paper belong to
`sheets`.
"""
