"""Drawings of carriers of wood.

Belongs here: the face and the section.
Does not belong here: joinery itself.
"""
