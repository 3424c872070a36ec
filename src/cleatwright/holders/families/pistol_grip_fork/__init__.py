"""The family pistol-grip-fork, with the geometry that serves it alone."""
