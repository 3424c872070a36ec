"""Cards that show what to measure on a tool.

Belongs here: views, placing of dimensions, sheets.
Does not belong here: which measures a kind has.
"""
