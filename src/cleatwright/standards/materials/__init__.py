"""Polymers: density, stiffness, strain.

Belongs here: one module per subject.
Does not belong here: which filament is used.
"""
