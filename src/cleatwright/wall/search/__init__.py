"""The search for a good arrangement, in whole numbers and compiled.

Nothing here knows of millimetres, documents or drawings: ``problem`` turns the wall into
tables, ``rounds`` searches, ``outcome`` turns what was found back into places and rails.
"""
