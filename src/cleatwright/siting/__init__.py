"""From built holders to walls: places, rails, ways out, what hangs already, what each place costs.

Belongs here: everything about one panel that is found by calculation.
Does not belong here: drawing it, writing anything.
"""
