"""What all tests share: property tests draw the same examples on every machine, every time."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("steady", derandomize=True, database=None, deadline=None)
settings.load_profile("steady")
