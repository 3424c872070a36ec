"""Mounts that are printed with the holder.

Belongs here: plate, hooks, feet and screw holes of one way of hanging.
Does not belong here: joints.
"""
