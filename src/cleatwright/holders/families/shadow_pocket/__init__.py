"""The family shadow-pocket, with the geometry that serves it alone."""
