"""What was drawn, as plain pages, lines and triangles, and how it is put on paper and into pixels.
Nothing here loads the drawing kernel: another process than the one that drew may do it.
"""
