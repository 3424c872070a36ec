"""The family loop-hook, with the geometry that serves it alone."""
