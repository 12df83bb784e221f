"""Tests of the day itself: what is left, what is lost, what is learned."""
