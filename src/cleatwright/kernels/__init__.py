"""Geometry kernels behind one protocol: a fast mesh kernel and an exact one.

Belongs here: turning descriptions into bodies, measuring and meeting them.
Does not belong here: what a part is for.
"""
