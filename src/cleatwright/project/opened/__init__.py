"""A workshop that somebody works on: its revisions, undo, and what others change beside it.

Here is what has a state. What is computed of a revision is asked of the stages, here is nothing
of it; who shows it to a person is not known here.
"""
