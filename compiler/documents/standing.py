"""What stands in a room when it is left: the list to strike, so that nothing of it is found there in the evening."""

from __future__ import annotations

from collections.abc import Iterator

from ..plan.setup import Setup
from ..record import record
from .changes import lamp_numbers
from .desk import Desk
from .say import join, plain
from .shoot import DayLine


@record
class Leaving:
    """A room after its last setup of the day: a heading, and what to take out of it by department."""

    room: str
    title: str
    lamps: tuple[str, ...]
    stands: tuple[str, ...]
    cloth: tuple[str, ...]
    practicals: tuple[str, ...]
    dressing: tuple[str, ...]

    @property
    def light(self) -> tuple[str, ...]:
        """What the gaffer takes down: lamps, cloth, lamps of the picture."""
        return (*self.lamps, *self.cloth, *self.practicals)

    @property
    def rigging(self) -> tuple[str, ...]:
        """What the grip takes down: what lamps stood on, and cloth."""
        return (*self.stands, *self.cloth)

    @property
    def art(self) -> tuple[str, ...]:
        """What goes back into the boxes of the art department."""
        return (*self.practicals, *self.dressing)


def leaving(desk: Desk, line: DayLine, name: str) -> Leaving | None:
    """The list after a setup that is the last of its room on a day with an agreed order; None for any other."""
    _ = desk.words
    plan = desk.shoot.plan
    setup = plan.setups[name]
    after = line.setups[line.setups.index(name) + 1 :]
    if not setup.set or not line.slots or any(plan.setups[other].set == setup.set for other in after):
        return None
    room = desk.say.set(setup.set)
    again = _again(desk, line, setup.set)
    title = (
        _("Last setup in {room} today (needed again: {day}): take out", room=room, day=again) if again
        else _("Last setup in {room}: take out", room=room)
    )
    return Leaving(
        room, title, tuple(_lamps(desk, line, setup, after)), tuple(_stands(desk, line, setup)),
        tuple(_cloth(desk, setup)), tuple(plain(lamp) for lamp in setup.practicals), setup.dressing,
    )  # fmt: skip


def _again(desk: Desk, line: DayLine, room: str) -> str:
    """The next day on which something is shot in a room; nothing where there is none."""
    days = [day for day in desk.shoot.days if day.day.id]
    if line not in days:
        return ""
    plan = desk.shoot.plan
    later = (day for day in days[days.index(line) + 1 :] if any(plan.setups[s].set == room for s in day.setups))
    found = next(later, None)
    return desk.day_words(found) if found else ""


def _lamps(desk: Desk, line: DayLine, setup: Setup, after: tuple[str, ...]) -> Iterator[str]:
    """Each lamp with its number, and where it is needed next when there is only one of its kind."""
    _ = desk.words
    plan, numbers = desk.shoot.plan, lamp_numbers(desk.shoot.plan, line.setups)
    for name, light in setup.lights.items():
        words = f"{numbers[setup.set or '', name]} {desk.say.light_name(name)}"
        piece = light.lamp[0] if len(light.lamp) == 1 else ""
        only = piece in plan.gear and (plan.gear[piece].quantity or 1) == 1
        users = (s for s in after if only and any(piece in other.lamp for other in plan.setups[s].lights.values()))
        room = next((desk.say.set(plan.setups[s].set) for s in users), "")
        yield _("{lamp}, goes on to {room}", lamp=words, room=room) if room else words


def _stands(desk: Desk, line: DayLine, setup: Setup) -> Iterator[str]:
    _ = desk.words
    numbers = lamp_numbers(desk.shoot.plan, line.setups)
    for name, light in setup.lights.items():
        if light.on:
            number = numbers[setup.set or "", name]
            yield _("{support} for lamp {number}", support=desk.say.thing(light.on), number=number)


def _cloth(desk: Desk, setup: Setup) -> Iterator[str]:
    """Flags and cloth, and the windows that are made bare again."""
    _ = desk.words
    for window, treated in setup.windows.items():
        if treated.black_out or treated.tent or treated.layers:
            yield join(": ", (plain(window.rsplit("/", 1)[-1]), _("back to bare")))
    yield from (plain(name) for name in setup.grip)
