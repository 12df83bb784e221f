"""schemas."""
