"""Holder families: ways of holding, one file each, and how tools are grouped into holders.

Belongs here: a family's parameters, its geometry and its seats, as descriptions.
Does not belong here: kernels, mounts, other families' geometry, the wall.
"""
