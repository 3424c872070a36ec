"""Screws, bolts, nuts, washers, holes for them.

Belongs here: one module per document and edition.
Does not belong here: which screw is used.
"""
