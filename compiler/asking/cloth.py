"""How much cloth windows and tents take, and whether it can be cut from a roll."""

from __future__ import annotations

from ..facts.cloth import JOIN, OVERLAP
from ..science import cloth
from .answer import Answer, Ask, Given, Line

HELP = "How much cloth windows or tents take, and whether a roll is enough."
ASKS = (
    Ask(
        "window", "size", "width x height of an opening; say it again for more", "1.3 m x 1.2 m", needed=True, many=True
    ),
    Ask("overlap", "length", "overlap on each side (15 cm when left out)", "15 cm"),
    Ask("tent", "length", "depth of a tent at each of them", "1.4 m", above_zero=True),
    Ask("roll", "size", "width x length of the roll", "3 m x 12 m"),
    Ask("rolls", "whole", "how many rolls there are", "2", above_zero=True),
)
EXAMPLES = ('hotset ask cloth --window "1.3 m x 1.2 m" --window "2 m x 1.5 m" --roll "3 m x 12 m"',)


def answer(given: Given) -> Answer:
    """The panels with their overlap, their area, and with a roll what is cut from it."""
    over = float(given.get("overlap", OVERLAP))
    panels: list[cloth.Panel] = []
    for number, sides in enumerate(given["window"], 1):
        wide, high = cloth.with_overlap(float(sides[0]), float(sides[1]), over)
        panels.append(cloth.Panel(f"opening {number}", wide, high))
        if "tent" in given:
            deep = float(given["tent"])
            panels += [cloth.Panel(f"side of {number}", deep, high)] * 2 + [cloth.Panel(f"top of {number}", wide, deep)]
    area = sum(p.width * p.height for p in panels)
    found = [Line("panels", ", ".join(f"{p.width:.2f} x {p.height:.2f} m" for p in panels), len(panels)),
             Line("area", f"{area:.2f} m2", round(area, 3))]  # fmt: skip
    if "roll" in given:
        roll = given["roll"]
        need = cloth.length_that_would_do(panels, float(roll[0]))
        if need is not None:
            found.append(Line("length of such a roll", f"{need:.2f} m", round(need, 3)))
        sheets = [cloth.Sheet("roll", float(roll[0]), float(roll[1]))] * min(int(given.get("rolls", 1)), 20)
        cutting = cloth.cut(panels, sheets, JOIN)
        words = "enough" if cutting.fits else "not enough" if cutting.proven else "not found to be enough"
        found.append(Line("the rolls are", words, words))
    return Answer(
        given.echo(overlap="15 cm", rolls="1"),
        tuple(found),
        "side + 2 overlaps; cut in strips from the roll, with seams of 10 cm where a panel is wider than it",
        "counting; overlap and seam are common practice, no source",
    )
