"""What a figure is: a number that hotset prints, with the way it is found and what that rests on."""

from __future__ import annotations

from ..record import record

PUBLISHED = "published"
SECOND_HAND = "published, read second hand"
PRACTICE = "common practice, no source"
MEMORY = "from memory"
GEOMETRY = "arithmetic or geometry"
PLAN = "as the plan says it"
STANDINGS = (PUBLISHED, SECOND_HAND, PRACTICE, MEMORY, GEOMETRY, PLAN)


@record
class Figure:
    """One kind of number. `unit` is as it is printed ("" for a count); `function` is where it is worked out, below
    `hotset.` ("" for what a plan says); `wants` are the details of the plan that go in; `details` the names it has
    among the numbers of findings (`rule/name` where a name alone means several things); `sheets` the sheets it is
    printed on."""

    name: str
    means: str
    unit: str
    formula: str
    source: str
    standing: str
    function: str = ""
    wants: tuple[str, ...] = ()
    details: tuple[str, ...] = ()
    sheets: tuple[str, ...] = ()
