"""The version of the installed package."""

from __future__ import annotations


def own_version() -> str:
    """Version as the package's metadata says it."""
    from importlib.metadata import version

    return version("hotset")
