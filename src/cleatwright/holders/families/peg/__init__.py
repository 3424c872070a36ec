"""The family peg, with the geometry that serves it alone."""
