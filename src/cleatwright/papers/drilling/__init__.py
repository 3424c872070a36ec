"""The drilling template at full size.

Belongs here: its view, plan, words and pages.
Does not belong here: which screws there are.
"""
