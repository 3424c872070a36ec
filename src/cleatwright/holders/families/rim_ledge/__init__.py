"""The family rim-ledge, with the geometry that serves it alone."""
