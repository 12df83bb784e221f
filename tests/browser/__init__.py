"""Tests in a real browser: `pytest -m browser`. They are not part of a plain run, since they need one."""
