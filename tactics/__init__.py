"""Shot-selection rules for tennis coaches."""
