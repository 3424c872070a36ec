"""The values that pass between kinds, families, mounts, checks and the wall.

Belongs here: frozen values and what follows from them by arithmetic.
Does not belong here: how a family builds, how a kernel evaluates, where a holder hangs.
"""
