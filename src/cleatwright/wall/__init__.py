"""Arranging holders on the wall, cutting rails to them, and finding what collides.

Belongs here: values and search on rectangles in elevation, seen from the front.
Does not belong here: families, solids, kernels, drawings.
"""
