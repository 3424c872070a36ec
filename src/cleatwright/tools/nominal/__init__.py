"""Standard sets: measures that follow from a nominal size.

Belongs here: rows from the standards, by kind.
Does not belong here: kinds.
"""
