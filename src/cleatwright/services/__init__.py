"""Use cases: the only room that wires the others, chooses kernels and opens files.

Belongs here: one module a use case, progress and cancelling.
Does not belong here: geometry, statics, layout of reports, anything a person types.
"""
