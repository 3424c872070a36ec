"""Limit states, one file each: numbers or parts in, CheckResult out.

Belongs here: a demand, a capacity and the rule that compares them.
Does not belong here: kernels (the services measure and pass numbers), drawings, choices.
"""
