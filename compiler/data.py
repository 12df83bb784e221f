"""The package's own data files: schemas, tables, templates."""

from __future__ import annotations

import os
from importlib import import_module
from typing import Any


def read_data(package: str, name: str) -> bytes:
    """The bytes of `name` (with `/` between folders) in the data package `schemas` or `templates`.

    Asks the package's own loader, so it works from a folder and from a zip file; `importlib.resources` gives the
    same but costs 6 ms to import, which every check would pay.
    """
    home: Any = import_module(f"hotset.{package}")
    content: bytes = home.__spec__.loader.get_data(os.path.join(home.__path__[0], *name.split("/")))
    return content
