"""Bodies that several kinds share.

Belongs here: convex pieces, plates, blades.
Does not belong here: one kind.
"""
