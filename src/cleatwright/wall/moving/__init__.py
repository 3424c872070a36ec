"""What a new arrangement changes for what hangs already, and in which order to change it."""
