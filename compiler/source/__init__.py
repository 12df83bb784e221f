"""The plan's text: `read` turns files into a tree with exact places, `quantities` reads its values, `splice` and
`writing` put an agreed value back without touching anything else."""

from __future__ import annotations

from .reader import Source, read
from .text import SourceFile
from .tree import Mapping, Node, Scalar, Sequence

__all__ = ["Mapping", "Node", "Scalar", "Sequence", "Source", "SourceFile", "read"]
