"""A rail from the side with what hangs on it.

Belongs here: its view, frame, marks and notes.
Does not belong here: statics.
"""
