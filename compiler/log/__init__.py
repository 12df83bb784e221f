"""The log of a shooting day: plain text beside the plan, one line an event, and what follows from it.

    text --read_log--> Log of events --happened--> what is shot, who left, what is lost

Nothing is guessed: a line that is not understood is one message, with its place and the nearest word.
"""

from .events import DayLog, Event, Log, LogFault
from .happened import Happened, Now, happened
from .reader import read_log

__all__ = ["DayLog", "Event", "Happened", "Log", "LogFault", "Now", "happened", "read_log"]
