"""The family bore-block, with the geometry that serves it alone."""
