"""Stages: pure steps of computing, each result kept under the content of what it depends on.

Belongs here: the stage, its outcome, the store, the run with its progress and its stop.
Does not belong here: what a stage computes (it lies with its subject), files of the workshop.
"""
