"""Immutable descriptions of outlines and solids, in mm.

Belongs here: what a shape is, its exact properties where a closed form exists.
Does not belong here: meshes, kernels, files, or anything that knows about tools.
"""
