"""source."""
