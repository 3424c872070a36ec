"""Cleatwright: holders that fit your tools, and a wall to hang them on."""

__version__ = "0.1.0"
