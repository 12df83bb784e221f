"""science."""
