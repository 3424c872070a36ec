"""The wall from the front, to scale, as pages and as DXF.

Belongs here: its views, layout and drawing.
Does not belong here: where things hang.
"""
