"""What the browser may ask, by subject; each route takes rows and gives rows, files or pictures."""
