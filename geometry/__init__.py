"""The drawing office: draws the parts of a design and writes their files. It reads the drawing
sheet (`isolator.design`) and nothing else of the project; it chooses nothing.
"""
