"""Places for what is new on a wall on which things hang.

Here belong seats beside all that stays, and those that a move or two make free. The search of a
whole wall does not.
"""
