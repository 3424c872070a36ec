"""The families, one file or folder each; none knows another.

Belongs here: geometry, seats and parameters of one way of holding.
Does not belong here: what two families share (see `features`).
"""
