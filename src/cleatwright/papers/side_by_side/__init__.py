"""Two arrangements of one wall side by side, to one scale, with what differs.

Belongs here: its view and drawing.
Does not belong here: what the numbers are.
"""
