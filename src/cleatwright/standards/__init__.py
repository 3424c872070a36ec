"""Standards as data: one module per document and edition, each value with its source.

Belongs here: tables and clauses as pure functions.
Does not belong here: decisions of this program.
"""
