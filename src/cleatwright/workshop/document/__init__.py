"""The owner's document: model, reading, checking, editing.

Belongs here: workshop.toml.
Does not belong here: other files.
"""
