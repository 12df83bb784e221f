"""Writing a file so that it is never half written, and keeps what makes it the same file."""

from __future__ import annotations

import os

from .text import SourceFile


def encoded(file: SourceFile, text: str) -> bytes:
    """A new text of a file as bytes, with the byte order mark it had. Line ends are in the text already."""
    return (b"\xef\xbb\xbf" if file.bom else b"") + text.encode("utf-8")


def write_safely(path: str, data: bytes) -> None:
    """Replace a file in one step: write beside it, flush to disk, rename over it. Permissions stay; a link keeps
    pointing to the file behind it. OSError where the disk refuses; the old file is then untouched."""
    real = os.path.realpath(path)
    mode = os.stat(real).st_mode & 0o7777 if os.path.exists(real) else None
    beside = f"{real}.{os.getpid()}.new"
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        if mode is not None:
            os.chmod(beside, mode)
        os.replace(beside, real)
    except BaseException:
        if os.path.exists(beside):
            os.unlink(beside)
        raise
