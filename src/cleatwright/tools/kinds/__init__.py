"""Tool kinds, one file each.

Belongs here: measures, envelope, mass, grips, dimensions of one kind.
Does not belong here: what several kinds share (see `features`).
"""
