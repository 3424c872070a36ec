"""Statics: cleat, rail, screws, springs, magnets, arms. Numbers and seats in, numbers out.

Belongs here: equilibrium and strength, each rule with its source.
Does not belong here: verdicts (see `checks`), geometry.
"""
