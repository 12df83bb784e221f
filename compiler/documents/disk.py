"""The few things the writer does to a disk, apart so that a test can let any of them fail or stop."""

from __future__ import annotations

import os
import shutil
from pathlib import Path


class Disk:
    """Each method does one thing that either happened or did not."""

    def make_folder(self, folder: Path) -> None:
        """Makes a folder and those above it; no complaint when it is there."""
        folder.mkdir(parents=True, exist_ok=True)

    def write(self, path: Path, content: bytes) -> None:
        """Writes a file and waits until the disk has it."""
        with path.open("wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())

    def keep(self, path: Path, copy: Path) -> None:
        """A second name for a file, or a copy where the file system knows no second names."""
        try:
            os.link(path, copy)
        except OSError:
            shutil.copy2(path, copy)

    def replace(self, source: Path, target: Path) -> None:
        """Puts a file in the place of another in one step."""
        os.replace(source, target)

    def remove(self, path: Path) -> None:
        """Removes a file; no complaint when it is gone already."""
        path.unlink(missing_ok=True)

    def remove_folder(self, folder: Path) -> None:
        """Removes a folder with all in it."""
        shutil.rmtree(folder)

    def remove_empty(self, folder: Path) -> None:
        """Removes a folder if nothing is in it."""
        if folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()
