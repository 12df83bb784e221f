"""What every document is handed: the shoot, the words, who says what how, and the head of a sheet."""

from __future__ import annotations

import datetime

from ..plan.scene import Shot
from ..record import record
from .marking import Marking
from .say import Say, join, plain
from .shoot import DayLine, Shoot
from .view import Head
from .words import Words


@record
class Desk:
    """One making of all sheets of a shoot."""

    shoot: Shoot
    words: Words
    say: Say
    marking: Marking

    def head(self, title: str, line: DayLine | None = None, who: str = "") -> Head:
        """The head of a sheet of a day, or of the whole shoot."""
        film = self.shoot.plan.film
        _ = self.words
        version = _("version {version}", version=self.shoot.version)
        return Head(
            title=title,
            film=film.title or _("Film without a title"),
            company=film.company or "",
            version_words=join(" · ", (version, self.shoot.label)),
            paper=film.paper or "A4",
            language=_.language,
            day=self.day_words(line) if line else "",
            date=self.date_words(line.day.date) if line else "",
            who=who,
        )

    def folder(self, line: DayLine) -> str:
        """The folder of a day's sheets."""
        return f"day-{slug(line.day.id)}" if line.day.id else "no-day"

    def workers(self, *departments: str) -> tuple[str, ...]:
        """Everybody who works in one of these departments."""
        people = self.shoot.plan.people
        works = {name: {job.lower().replace(" ", "-") for job in person.works} for name, person in people.items()}
        return tuple(name for name in people if works[name] & set(departments))

    def day_words(self, line: DayLine) -> str:
        """Day 1 of 2; the plan's own name where days are named."""
        _ = self.words
        if not line.day.id:
            return _("Not on any day yet")
        ids = [day.day.id for day in self.shoot.days if day.day.id]
        if line.day.id.isdigit():
            if len(ids) == 1:
                return _("Day {day}", day=line.day.id)
            return _("Day {day} of {days}", day=line.day.id, days=len(ids))
        return plain(line.day.id)

    def date_words(self, date: datetime.date | None) -> str:
        """Saturday 14 November 2026."""
        _ = self.words
        if date is None:
            return ""
        weekdays = (
            _("Monday"), _("Tuesday"), _("Wednesday"), _("Thursday"), _("Friday"), _("Saturday"), _("Sunday"),
        )  # fmt: skip
        months = (
            _("January"), _("February"), _("March"), _("April"), _("May"), _("June"), _("July"), _("August"),
            _("September"), _("October"), _("November"), _("December"),
        )  # fmt: skip
        return _(
            "{weekday} {day} {month} {year}", weekday=weekdays[date.weekday()], day=date.day,
            month=months[date.month - 1], year=date.year,
        )

    def room_of(self, line: DayLine, setup: str) -> str:
        """The room of a setup, with its place where the day has more than one."""
        plan = self.shoot.plan
        places = {(plan.setups[name].set or "").split("/")[0] for name in line.setups}
        return self.say.place_of(setup) if len(places) > 1 else self.say.set(plan.setups[setup].set)

    def call_of(self, line: DayLine, person: str) -> int | None:
        """When a person is called: their own time that day, their own time, time before their first setup, the call."""
        known = self.shoot.plan.people[person]
        today = known.days.get(line.day.id)
        if today and today.call is not None:
            return today.call
        if known.call is not None:
            return known.call
        if known.plays:
            first = next((s for s in line.slots if s.kind == "shoot" and person in self.cast_of_slot(s.shots)), None)
            if first is not None:
                return first.start - round((known.before or 0.0) / 30)
        return line.day.call

    def cast_of_slot(self, shots: tuple[str, ...]) -> tuple[str, ...]:
        """Persons who play in any of these shots."""
        people = [person for shot in shots for person in self.cast_of(self.shoot.plan.shots[shot])]
        return tuple(dict.fromkeys(people))

    def cast_of(self, shot: Shot) -> tuple[str, ...]:
        """Persons in a shot: its own cast, or whoever plays the characters of its scene."""
        plan = self.shoot.plan
        if shot.cast is not None:
            return tuple(dict.fromkeys(person for _character, person in shot.cast))
        scene = plan.scenes[plan.scene_of[shot.id]]
        return tuple(name for name, p in plan.people.items() if set(p.plays) & set(scene.characters))

    def cast_words(self, shot: Shot) -> str:
        """Characters of a shot."""
        plan = self.shoot.plan
        if shot.cast is not None:
            return ", ".join(dict.fromkeys(character for character, _person in shot.cast))
        return ", ".join(plan.scenes[plan.scene_of[shot.id]].characters)

    def shot_words(self, shot: Shot) -> str:
        """Size, angle, move and what happens, in one line."""
        how = join(", ", (shot.size or "", shot.angle or "", shot.move or ""))
        return join(" · ", (how, shot.does or ""))

    def priority(self, word: str | None) -> str:
        """How much the film needs it; nothing for what must be had."""
        _ = self.words
        return {"want": _("wanted, not a must"), "if-time": _("only if there is time")}.get(word or "", "")

    def here_on(self, line: DayLine, person: str) -> bool:
        """Whether a person is there on a day: named for it, and not away by their own days."""
        known = self.shoot.plan.people[person]
        if known.days and line.day.id not in known.days:
            return False
        return not line.day.people or person in line.day.people


def slug(name: str) -> str:
    """An id as part of a file name: plain lower-case letters, digits and hyphens."""
    kept = "".join(c if c.isascii() and c.isalnum() else "-" for c in name.lower())
    return kept.strip("-") or "x"
