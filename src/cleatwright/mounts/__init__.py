"""Mounts: how a holder hangs. A mount takes a front and returns the whole part.

Belongs here: the plate, hooks, feet and screw holes, and the hardware they need.
Does not belong here: how a tool is held.
"""
