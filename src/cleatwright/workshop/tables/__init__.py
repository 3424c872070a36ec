"""Tool lists from outside.

Belongs here: CSV and spreadsheets.
Does not belong here: the document.
"""
