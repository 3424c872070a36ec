"""One project on disk: computing it as a whole, and publishing whole sets of files.

Belongs here: the wiring of all rooms below, locks, what a stopped run left behind.
Does not belong here: single use cases, anything a person types.
"""
