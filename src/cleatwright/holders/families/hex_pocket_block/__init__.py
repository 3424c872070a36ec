"""The family hex-pocket-block, with the geometry that serves it alone."""
