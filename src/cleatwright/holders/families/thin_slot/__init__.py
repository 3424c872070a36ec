"""The family thin-slot, with the geometry that serves it alone."""
