"""The ledger: marks, what hangs, rails; and its lock.

Belongs here: ledger.db and its migrations.
Does not belong here: what follows from it.
"""
