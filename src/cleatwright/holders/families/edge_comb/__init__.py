"""The family edge-comb, with the geometry that serves it alone."""
