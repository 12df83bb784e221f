"""What is painted before what, so that the near hides the far.

Of two solids that do not run into each other one plane keeps them apart; the one on the camera's side of it may hide
the other, never the reverse. Upright prisms and flat upright shapes, which is all that is drawn, are kept apart by the
plane of one of their own faces or by a level plane.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...record import record
from .shapes import Box, apart

Point3 = tuple[float, float, float]
NEAR = 1e-6
# The sides of a plane on which two bodies lie that it keeps apart (0: in the plane), and which of them the first has.
_APART = {(1, -1): 1, (-1, 1): -1, (0, -1): 1, (0, 1): -1, (1, 0): 1, (-1, 0): -1}


@record
class Body:
    """Something to be painted: its faces in space, the box it takes on the paper, how far it is, and whether it lies
    over what it runs into (a person on a bench)."""

    faces: tuple[tuple[Point3, ...], ...]
    box: Box
    far: float
    over: bool = False


def painted(bodies: Sequence[Body], eye: Point3) -> list[int]:
    """The places of the bodies in the order in which they are painted, the hidden before what hides them."""
    count = len(bodies)
    shells = [_Shell(body) for body in bodies]
    before: list[set[int]] = [set() for _ in bodies]  # what must be painted before each
    for a in range(count):
        for b in range(a):
            if not apart(bodies[a].box, bodies[b].box):
                first, second = (a, b) if _hidden(shells[a], shells[b], eye) else (b, a)
                before[second].add(first)
    order: list[int] = []
    left = sorted(range(count), key=lambda n: (-bodies[n].far, n))
    while left:
        # In a ring of three that each hide a part of the next the farthest goes first.
        n = next((n for n in left if not before[n].intersection(left)), left[0])
        left.remove(n)
        order.append(n)
    return order


class _Shell:
    """A body with its corners, heights and planes made ready."""

    def __init__(self, body: Body) -> None:
        self.body = body
        self.points = tuple(dict.fromkeys(p for face in body.faces for p in face))
        heights = [p[2] for p in self.points]
        self.low, self.high = min(heights), max(heights)
        self.planes = [plane for face in body.faces if (plane := _upright(face)) is not None]


def _upright(face: Sequence[Point3]) -> tuple[float, float, float] | None:
    """The line on the floor over which an upright face stands, as (nx, ny, d); None for a level face."""
    x0, y0, _ = face[0]
    x1, y1, _ = max(face, key=lambda p: (p[0] - x0) ** 2 + (p[1] - y0) ** 2)
    nx, ny = y1 - y0, x0 - x1
    long = (nx * nx + ny * ny) ** 0.5
    if long < NEAR or any(abs((p[0] - x0) * nx + (p[1] - y0) * ny) > 1e-4 * long for p in face):
        return None
    nx, ny = nx / long, ny / long
    return nx, ny, nx * x0 + ny * y0


def _hidden(a: _Shell, b: _Shell, eye: Point3) -> bool:
    """Whether a is to be painted before b."""
    for level, below, above in ((b.low, a, b), (a.low, b, a)):
        if below.high <= level + NEAR and abs(eye[2] - level) > NEAR:
            return (below is a) if eye[2] > level else (above is a)
    for plane in (*a.planes, *b.planes):
        near = _APART.get((_side(a, plane), _side(b, plane)))
        mine = plane[0] * eye[0] + plane[1] * eye[1] - plane[2]
        if near is not None and abs(mine) > NEAR:
            return (mine > 0) != (near > 0)
    if a.body.over != b.body.over:
        return b.body.over
    return a.body.far >= b.body.far


def _side(shell: _Shell, plane: tuple[float, float, float]) -> int:
    """1 or -1 for the side of an upright plane on which all corners lie, 0 for those all in it, 2 for both sides."""
    nx, ny, d = plane
    low = high = 0.0
    for x, y, _ in shell.points:
        off = nx * x + ny * y - d
        low, high = min(low, off), max(high, off)
    if high < 1e-5 and low > -1e-5:
        return 0
    return 1 if low > -1e-5 else -1 if high < 1e-5 else 2
