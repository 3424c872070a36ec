"""The family blade-sheath, with the geometry that serves it alone."""
