"""The family clamp-bar, with the geometry that serves it alone."""
