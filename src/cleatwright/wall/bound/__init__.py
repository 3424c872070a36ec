"""A lower bound on the points of any arrangement of a wall.

What no arrangement can do without is counted: rails, groups, heights. Nothing here searches for
an arrangement, and nothing of the search is used.
"""
