"""Linings and things on walls.

Belongs here: what is common there, with its source.
Does not belong here: the owner's wall.
"""
