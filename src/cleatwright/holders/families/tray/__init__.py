"""The family tray, with the geometry that serves it alone."""
