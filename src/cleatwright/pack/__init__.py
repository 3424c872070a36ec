"""From what was found to what is written: print files, beds, saw lists, drawings, report.

Belongs here: rows for the drawings of `papers`, and the bytes by their paths.
Does not belong here: deciding anything, writing to disk.
"""
