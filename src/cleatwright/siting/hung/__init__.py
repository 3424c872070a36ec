"""What hangs already: matched with the holders of today, its rails, and what changes about it.

Belongs here: comparing the ledger with a plan.
Does not belong here: searching the wall.
"""
