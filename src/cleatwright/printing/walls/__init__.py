"""How many lines make the walls of a part: as many as the stress in its sections asks for.

Belongs here: cuts through a printed part, and what its tools and a hand make of them.
Does not belong here: what a part weighs, and how it lies.
"""
