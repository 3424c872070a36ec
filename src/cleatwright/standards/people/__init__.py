"""Measures and limits of people.

Belongs here: one module per document.
Does not belong here: where a person stands.
"""
