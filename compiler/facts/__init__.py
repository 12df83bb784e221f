"""What follows from a plan. `Facts(plan)` works out each fact once, when it is first asked for.

walls and places: where everything stands; rig, changeover, timeline: what the day does minute by minute.
"""

from .facts import Facts

__all__ = ["Facts"]
