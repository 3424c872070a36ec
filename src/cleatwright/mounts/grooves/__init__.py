"""Plates in the grooves of a back: how a holder made for a rail hangs on anything else.

Belongs here: where plates, their screws and hooks sit, and the thinnest that hold.
Does not belong here: the shape of a plate or a hook.
"""
