"""Tests of trials: changed plans, compiled again."""
