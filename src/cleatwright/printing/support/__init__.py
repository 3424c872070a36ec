"""Which facets of a body need support.

Belongs here: overhangs, bridges, islands, keels.
Does not belong here: choosing a pose.
"""
