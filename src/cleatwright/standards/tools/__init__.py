"""Sizes of tools and stock.

Belongs here: one module per document and edition.
Does not belong here: kinds.
"""
