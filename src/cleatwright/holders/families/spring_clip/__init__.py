"""The family spring-clip, with the geometry that serves it alone."""
