"""Outlines from drawings.

Belongs here: SVG and DXF to loops.
Does not belong here: kinds.
"""
