"""Units, errors, sources and content keys: what every other room may lean on.

Belongs here: values without any idea of tools, walls or geometry.
Does not belong here: anything that reads a file or knows the trade.
"""
