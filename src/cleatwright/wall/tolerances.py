"""How near counts as the same on a wall: every tolerance of arranging and asking, each once.

Lengths first, from the finest to the coarsest, then those of the solver and of points.
"""

from __future__ import annotations

# a count that floating point puts a millionth beside a whole number is that number
COUNT_SLACK = 1e-6
# frames of parts that lie equally are the same although their places on the wall were summed up
# differently; finer than any solid is built
FRAME_DIGITS = 6
# screws in a stud to the thousandth, so that sums of halves read evenly
SCREW_DIGITS = 3
# the search counts in hundredths of a millimetre, and places are told and given so
DIGITS = 2
# a shorter face than this is none: the rail comes to a point
NO_FACE_MM = 1e-6
# two ends of rails, studs and plates that were each rounded to a hundredth
SLACK_MM = 0.02
# two rectangles that share no more do not overlap: the search rounds outward on both sides
TOLERANCE_MM = 0.03
# above the tolerance with which two rectangles count as apart, so that a bound stays below
HAIR_MM = 0.1
# what a person reads off a rule
RULE_DIGITS = 1
# a place counts as the old one when it is the same to the eye; nobody hangs a holder more exactly
SAME_MM = 0.5
# a line across the wall counts as too full from here; a lower bound may leave it out
OVERFULL_MM = 1.0

# the solver counts a row as met, and a column as whole, within a millionth
SOLVER_SHARE = 1e-6
# a row of the program that is broken by less is not worth adding
BROKEN_SHARE = 1e-3
# nor one that lacks fewer points
BROKEN_POINTS = 0.5
# taken off the solver's value for its sums of many rows
SAFE_POINTS = 1e-3

# points are told to a tenth: less is none
LEAST_POINTS = 0.05
