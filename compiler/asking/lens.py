"""What a lens sees: field of view, the frame at a distance, what that makes of a person, and what is sharp."""

from __future__ import annotations

import math

from ..facts import tables
from ..science import framing, lens
from .answer import Answer, Ask, Given, Line

HELP = "What a lens sees at a distance, which size that is, and what is sharp."
ASKS = (
    Ask("focal", "length", "focal length", "35 mm", needed=True, above_zero=True),
    Ask("sensor", "size", "width x height of the sensor", "36 mm x 24 mm", needed=True),
    Ask("aspect", "aspect", "shape of the picture", "16:9"),
    Ask("away", "length", "how far the subject is", "2 m", above_zero=True),
    Ask("tall", "length", "height of the person (1.7 m when left out)", "1.68 m", above_zero=True),
    Ask("stop", "stop", "stop, for what is sharp", "T2.8"),
    Ask("squeeze", "number", "anamorphic squeeze", "2", above_zero=True),
)
EXAMPLES = ('hotset ask lens --focal "85 mm" --sensor "36 mm x 24 mm" --away "2 m" --stop T2.8',)


def answer(given: Given) -> Answer:
    """Angles; with a distance the frame, the size and the picture's share; with a stop the sharp zone."""
    focal, sensor = float(given["focal"]), given["sensor"]
    gate = lens.gate(float(sensor[0]), float(sensor[1]), given.get("aspect"), float(given.get("squeeze", 1.0)))
    angles = [lens.field_of_view(side, focal) for side in (gate.width, gate.height, math.hypot(*gate))]
    found = [
        Line("picture", f"{gate.width * 1000:.2f} x {gate.height * 1000:.2f} mm"),
        Line("field of view", f"{angles[0]:.1f} x {angles[1]:.1f} deg, {angles[2]:.1f} across", round(angles[0], 3)),
        Line("crop factor", f"{lens.crop_factor(*gate):.2f}", round(lens.crop_factor(*gate), 3)),
    ]
    notes = []
    if "away" in given:
        away = float(given["away"])
        wide, high = (lens.frame_at(side, focal, away) for side in gate)
        found.append(Line("frame", f"{wide:.2f} m wide, {high:.2f} m high", round(high, 4)))
        tall = float(given["tall"]) if "tall" in given else None
        sizes = framing.sizes_of(tables.framing(), tall)
        got = framing.nearest(sizes, high)
        found.append(Line("size of somebody standing", f"{got.name}, {got.words}", got.name))
        notes.append("sizes of a shot are common practice, no source")
    if "stop" in given:
        found += _sharp(given, focal, gate)
        notes.append("blur of a fifteen-hundredth of the diagonal; a T-number counts as the f-number")
    return Answer(
        given.echo(**({"tall": "1.7 m"} if "away" in given else {})),
        tuple(found),
        "2 atan(side / 2f); frame = side s / f; near, far = s f^2 / (f^2 +- N c (s - f)), H = f^2 / (N c) + f",
        "thin lens geometry, standard optics",
        tuple(notes),
    )


def _sharp(given: Given, focal: float, gate: lens.Gate) -> list[Line]:
    blur = lens.circle_of_confusion(gate.width, gate.height)
    number = float(given["stop"].number)
    far = lens.hyperfocal(focal, number, blur)
    found = [Line("hyperfocal", f"{far:.2f} m", round(far, 4))]
    if "away" in given and float(given["away"]) > focal:
        zone = lens.focus(focal, number, blur, float(given["away"]))
        end = "without end" if math.isinf(zone.far) else f"{zone.far:.2f} m"
        found.append(Line("sharp", f"from {zone.near:.2f} m to {end}", round(zone.near, 4)))
    return found
