"""The family ring-floor, with the geometry that serves it alone."""
