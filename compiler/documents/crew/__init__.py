"""The crew's page: a day on one page for a phone on a dark set, with things to tick and what comes next."""

from .page import sheets

__all__ = ["sheets"]
