"""The version that stands on every sheet: which words of the plan it was made from."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import sha256


def version_of(read: Mapping[str, bytes]) -> str:
    """Eight characters that change whenever any file read changes.

    `read` maps each file's name, as the plan refers to it, to its bytes. Order and folder do not matter: the hash is
    taken over the contents in order of their own hashes, so the same plan elsewhere has the same version.
    """
    parts = sorted(sha256(content).digest() for content in read.values())
    return sha256(b"".join(parts)).hexdigest()[:8]
