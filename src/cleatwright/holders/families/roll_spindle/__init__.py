"""The family roll-spindle, with the geometry that serves it alone."""
