"""The family magnet-bar, with the geometry that serves it alone."""
