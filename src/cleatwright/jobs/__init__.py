"""Use cases, one module each: make, hung, remake, share, receive, series, cards, tables, answers.

Belongs here: what one command or one screen asks for.
Does not belong here: calculation, layout of papers.
"""
