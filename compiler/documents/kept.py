"""Compiled templates kept beside the templates, as Python keeps its own compiled modules; never needed, only faster.

Nothing is kept where Python itself keeps nothing (PYTHONDONTWRITEBYTECODE), or where the folder cannot be written.
A template that changed is compiled anew: the key holds a checksum of its text and the versions of what compiled it.
"""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from jinja2 import BytecodeCache

if TYPE_CHECKING:
    from jinja2.bccache import Bucket


class Kept(BytecodeCache):
    """A file a template in `folder`/__pycache__, replaced whole."""

    def __init__(self, folder: str) -> None:
        self.folder = os.path.join(folder, "__pycache__")

    def load_bytecode(self, bucket: Bucket) -> None:
        try:
            with open(self._path(bucket), "rb") as file:
                bucket.load_bytecode(file)
        except (OSError, ValueError, EOFError, TypeError):
            bucket.reset()  # missing or damaged: compiled anew

    def dump_bytecode(self, bucket: Bucket) -> None:
        if sys.dont_write_bytecode:
            return
        path = self._path(bucket)
        beside = f"{path}.{os.getpid()}"
        try:
            os.makedirs(self.folder, exist_ok=True)
            with open(beside, "wb") as file:
                bucket.write_bytecode(file)
            os.replace(beside, path)
        except OSError:
            return

    def _path(self, bucket: Bucket) -> str:
        return os.path.join(self.folder, f"{bucket.key}.{sys.implementation.cache_tag}.jinja")
