"""The words of the log. Each event has one plain word and the forms that hands on a phone make of it."""

from __future__ import annotations

VERBS: dict[str, str] = {
    **dict.fromkeys(("rolled", "roll", "rolls", "rolling"), "rolled"),
    **dict.fromkeys(("done", "finished", "complete", "completed", "got"), "done"),
    **dict.fromkeys(("again", "redo"), "again"),
    **dict.fromkeys(("dropped", "drop", "drops", "skipped", "skip"), "dropped"),
    **dict.fromkeys(("rigging", "rig", "preparing", "lighting"), "rigging"),
    **dict.fromkeys(("ready", "rigged", "lit"), "ready"),
    **dict.fromkeys(("lost", "broke", "broken", "dead"), "lost"),
    **dict.fromkeys(("back", "mended", "found", "repaired"), "back"),
    **dict.fromkeys(("leaves", "leave", "leaving", "left", "gone"), "leaves"),
    **dict.fromkeys(("comes", "coming", "late"), "comes"),
    **dict.fromkeys(("here", "arrived"), "here"),
    **dict.fromkeys(("meal", "lunch", "dinner", "supper", "breakfast"), "meal"),
    **dict.fromkeys(("tone", "room-tone", "roomtone"), "tone"),
    **dict.fromkeys(("waiting", "wait", "waits", "stopped"), "waiting"),
    **dict.fromkeys(("call", "called", "started"), "call"),
    **dict.fromkeys(("packing", "pack"), "packing"),
    **dict.fromkeys(("wrap", "wrapped", "wraps"), "wrap"),
    "day": "day",
    "note": "note",
}
"""Word as it is typed, in lower case -> kind of event."""

FREE_TEXT = ("note", "waiting")
"""Kinds whose further words are anybody's."""

ENDS = ("over", "done", "end", "ends", "ended", "finished", "eaten")
"""Words that make of a meal its end."""

TWO_MEANINGS: dict[str, str] = {
    "cut": "write 'done' where the shot is in the can, or 'dropped' where it is left out",
    "out": "write 'leaves' for a person, 'lost' for a thing, or 'dropped' for a shot",
    "in": "write 'here' for a person, or 'back' for a thing",
    **dict.fromkeys(("rain", "raining", "rains", "storm", "wind", "fog", "snow", "clouds", "weather"),
                    "where everybody waits for it write: waiting 14:10 for rain; a remark goes after #"),
    "moved": "write 'rigging' and the setup, in the room where it goes on",
    "moving": "write 'rigging' and the setup, in the room where it goes on",
}
"""Words that a crew says but that may mean more than one thing -> what to write."""

FILLERS = frozenset(("the", "a", "an", "at", "of", "for", "with", "is", "was", "are", "to", "on", "in", "has", "from"))
"""Words that say nothing here, unless the plan has a thing of that name."""

JOINERS = frozenset((",", "and", "&", "+"))
NUMBERS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}

FAMILIES: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("rolled", "done", "again", "dropped", "rigging", "ready"), ("shot", "setup")),
    "lost": ("gear", "stock", "person", "set", "circuit"),
    "back": ("gear", "stock", "person", "set", "circuit"),
    **dict.fromkeys(("leaves", "comes", "here"), ("person",)),
    "tone": ("set",),
}
"""What the subject of an event can be. Kinds that are not listed have none."""

SUBJECTS: dict[str, str] = {
    "rolled": "a shot or setup",
    "done": "a shot or setup",
    "again": "a shot or setup",
    "dropped": "a shot or setup",
    "rigging": "a setup",
    "ready": "a setup",
    "lost": "a thing of the plan",
    "back": "a thing of the plan",
    "leaves": "a person",
    "comes": "a person",
    "here": "a person",
}
"""Kinds that need a subject, with its words."""

EXAMPLES: dict[str, str] = {
    "rolled": "rolled 4A 09:40",
    "done": "done 4A 10:05 3 takes",
    "again": "again 4A",
    "dropped": "dropped 4F",
    "rigging": "rigging office-wide 09:20",
    "ready": "ready office-wide 09:35",
    "lost": "lost fresnel 13:10",
    "back": "back fresnel 15:00",
    "leaves": "mara leaves 15:00",
    "comes": "ines comes 12:10",
    "here": "ines here 11:30",
    "meal": "meal 12:40",
    "meal-over": "meal over 13:20",
    "tone": "room tone 11:02",
    "waiting": "waiting 14:10 for the rain to stop",
    "call": "call 07:35",
    "packing": "packing 18:40",
    "wrap": "wrap 19:20",
    "day": "day 1",
    "note": "note the fridge is off; its keys are in the van",
}
