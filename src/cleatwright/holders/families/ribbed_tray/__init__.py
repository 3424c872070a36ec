"""The family ribbed-tray, with the geometry that serves it alone."""
