"""Wood: which rails to make, how to rip their bevels, and how to cut them from boards.

Belongs here: rails, rip data, cutting plans, the cut list and its cautions.
Does not belong here: printing, where a rail hangs, whether it holds.
"""
