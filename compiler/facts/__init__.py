"""facts."""
