"""Geometry that several families or mounts share.

Belongs here: descriptions of hooks, plates, rows, feet, holes, ribs.
Does not belong here: what serves one family (it lies with that family), kernels.
"""
