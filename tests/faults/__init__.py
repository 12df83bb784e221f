"""Faults planted in the examples one at a time, and how many of them are found."""
