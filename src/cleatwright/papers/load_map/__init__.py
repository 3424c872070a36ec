"""Which rail, stud and screw bears what.

Belongs here: its view and drawing.
Does not belong here: statics.
"""
