"""The owner's document: its checked model, its TOML file, tool lists from outside, the ledger.

Belongs here: everything that is read from or written to the workshop folder.
Does not belong here: what a kind, a family or a mount makes of the values.
"""
