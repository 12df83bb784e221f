"""compiler."""
