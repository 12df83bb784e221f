"""The nouns of a plan as frozen dataclasses, and decoding: `decode(source)` gives the `Plan` and the faults met.

One file a noun family (film, day, location, set, person, gear, stock, scene, setup, light); keys and their meaning
stand in `schemas/nouns`. Every noun knows its `id` (rooms, doors, windows and circuits by their whole name) and its
`path`; `Plan.where(path)` gives the place in the text.
"""

from .plan import Plan, decode

__all__ = ["Plan", "decode"]
