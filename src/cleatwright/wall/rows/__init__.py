"""Rails as whole rows: from end to end of a wall, at a few heights that a person would choose.

What belongs here: where the pieces of a row lie, and which heights are chosen. How things hang on
given rails is the search's.
"""
