"""Gear list: everything that is carried, by owner and case, to tick on the way out and on the way in."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..plan.gear import Errand, Gear
from ..plan.stock import Stock
from ..record import record
from ..source.quantities import Moment, Money, show
from . import to_get
from .csvtext import csv_text
from .desk import Desk
from .say import join, plain
from .to_get import Get
from .view import Mark, Pair, Sheet

ORDER = ("borrowed", "rented", "own", "bought")


@record
class GearRow:
    """One thing."""

    count: str
    name: str
    id: str
    case: str
    kind: str
    weight: str
    value: str
    due: str
    care: str
    marks: tuple[Mark, ...]


@record
class Lot:
    """What one owner gives, in the order of cases; `back` says when and by whom it goes back."""

    title: str
    back: tuple[str, ...]
    rows: tuple[GearRow, ...]


@record
class Buy:
    """Something to buy."""

    count: str
    name: str
    id: str
    cost: str


@record
class GearList:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    lots: tuple[Lot, ...]
    shopping: tuple[Buy, ...]
    short: tuple[Get, ...]
    sum: str
    totals: tuple[Pair, ...]


Thing = Gear | Stock


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for the whole shoot, where the plan names things."""
    _ = desk.words
    if desk.shoot.plan.gear or desk.shoot.plan.stock:
        yield Sheet("gear-list", "gear-list", desk.head(_("Gear list")), partial(view, desk), csv=partial(table, desk))


def view(desk: Desk) -> GearList:
    """By owner, borrowed things first, since they come back to somebody."""
    _ = desk.words
    lots = tuple(_lots(desk))
    first = _first_due(desk)
    return GearList(
        first_when="", first_what=first[0] if first else _("Nothing has to go back to anybody"),
        first_where=first[1] if first else "", lots=lots, shopping=tuple(_shopping(desk)), sum=_sum(desk),
        short=tuple(to_get.short(desk)), totals=tuple(_totals(desk)),
    )  # fmt: skip


def table(desk: Desk) -> str:
    """The same as a table: one row a thing."""
    _ = desk.words
    head = [_("owner"), _("from"), _("case"), _("count"), _("thing"), _("name in the plan"), _("kind"),
            _("weight of one"), _("value"), _("cost"), _("due"), _("out"), _("in")]  # fmt: skip
    rows = []
    for thing in _sorted(desk):
        cost, value = desk.say.value("money", thing.cost), desk.say.value("money", thing.value)
        due, weight = show("moment", thing.due) if thing.due else "", desk.say.value("weight", thing.weight)
        rows.append([
            _owner(desk, thing), thing.lent_by or "", thing.case or "", str(_count(thing)), desk.say.thing(thing.id),
            thing.id, _kind(desk, thing), weight, value, cost, due, "", "",
        ])  # fmt: skip
    return csv_text(head, rows)


def _sorted(desk: Desk) -> list[Thing]:
    """By owner, lender and case, else in the order of the plan."""
    things: list[Thing] = [*desk.shoot.plan.gear.values(), *desk.shoot.plan.stock.values()]
    return sorted(things, key=lambda t: (ORDER.index(t.owner or "own"), t.lent_by or "", t.case is None, t.case or ""))


def _lots(desk: Desk) -> Iterator[Lot]:
    groups: dict[tuple[str, str], list[Thing]] = {}
    for thing in _sorted(desk):
        groups.setdefault((thing.owner or "own", thing.lent_by or ""), []).append(thing)
    for (owner, lender), things in groups.items():
        title = join(", ", (_owner(desk, things[0]), lender))
        yield Lot(title, tuple(dict.fromkeys(_back(desk, things))) if owner in ("borrowed", "rented") else (),
                  tuple(_row(desk, thing) for thing in things))  # fmt: skip


def _row(desk: Desk, thing: Thing) -> GearRow:
    _ = desk.words
    plan_b = desk.say.things(thing.plan_b) if isinstance(thing, Gear) else ""
    needs = desk.say.things(thing.needs) if isinstance(thing, Gear) else ""
    care = join(" · ", (
        _("needs {things}", things=needs) if needs else "", _("instead: {things}", things=plan_b) if plan_b else "",
        *thing.note,
    ))  # fmt: skip
    return GearRow(
        count=str(_count(thing)), name=desk.say.thing(thing.id), id=thing.id, case=thing.case or "",
        kind=_kind(desk, thing), weight=_each(desk, thing, desk.say.value("weight", thing.weight)),
        value=_each(desk, thing, desk.say.value("money", thing.value)), due=_when(desk, thing.due), care=care,
        marks=desk.marking.under(thing.path),
    )  # fmt: skip


def _each(desk: Desk, thing: Thing, words: str) -> str:
    """What one of several weighs or is worth, said so that nobody takes it for all of them."""
    _ = desk.words
    return _("{one} each", one=words) if words and _count(thing) > 1 else words


def _back(desk: Desk, things: list[Thing]) -> Iterator[str]:
    _ = desk.words
    for thing in things:
        if isinstance(thing, Gear) and thing.fetch:
            yield _("fetch: {errand}", errand=_errand(desk, thing.fetch))
        if thing.return_ or thing.due:
            due = _("back by {when}", when=_when(desk, thing.due)) if thing.due else _("bring back")
            yield join(": ", (due, join(", ", (desk.say.thing(thing.id), _errand(desk, thing.return_)))))


def _errand(desk: Desk, errand: Errand | None) -> str:
    _ = desk.words
    if errand is None:
        return ""
    return join(", ", (
        desk.say.person(errand.by) if errand.by else _("nobody named yet"), _when(desk, errand.at),
        desk.say.value("duration", errand.takes), *errand.note,
    ))  # fmt: skip


def _when(desk: Desk, moment: Moment | None) -> str:
    """A date with its weekday, and the hour."""
    return join(" ", (desk.date_words(moment.date), desk.say.clock(moment.clock))) if moment else ""


def _first_due(desk: Desk) -> tuple[str, str] | None:
    """The thing that has to be back first."""
    _ = desk.words
    dues: list[tuple[Moment, Thing]] = [(thing.due, thing) for thing in _sorted(desk) if thing.due is not None]
    if not dues:
        return None
    due, thing = min(dues, key=lambda row: (row[0].date, row[0].clock))
    what = _("Back first: {thing}", thing=desk.say.thing(thing.id))
    who = _errand(desk, thing.return_) if thing.return_ else _("nobody named yet to bring it back")
    return what, join(" · ", (_when(desk, due), thing.lent_by or "", who))


def _shopping(desk: Desk) -> Iterator[Buy]:
    for thing in _sorted(desk):
        if thing.owner == "bought":
            cost = desk.say.value("money", thing.cost)
            yield Buy(str(_count(thing)), desk.say.thing(thing.id), thing.id, cost)


def _sum(desk: Desk) -> str:
    """What the shopping costs, currency by currency; each price is for one."""
    cents: dict[str, int] = {}
    for thing in _sorted(desk):
        if thing.owner == "bought" and thing.cost:
            cents[thing.cost.currency] = cents.get(thing.cost.currency, 0) + thing.cost.cents * _count(thing)
    return " + ".join(desk.say.value("money", Money(total, currency)) for currency, total in sorted(cents.items()))


def _totals(desk: Desk) -> Iterator[Pair]:
    """How many pieces, what they weigh in all and by case, and what they are worth; what is not known is counted."""
    _ = desk.words
    things = _sorted(desk)
    pieces = _.count("{n} piece", "{n} pieces", sum(_count(thing) for thing in things))
    yield Pair(_("in all"), pieces)
    weighed = _weight(desk, things)
    if weighed:
        yield Pair(_("weight"), weighed)
    cases = dict.fromkeys(thing.case for thing in things if thing.case)
    for case in cases:
        inside = [thing for thing in things if thing.case == case]
        count = _.count("{n} piece", "{n} pieces", sum(_count(thing) for thing in inside))
        yield Pair(_("in {case}", case=case or ""), join(", ", (count, _weight(desk, inside))))
    words = _value(desk, things)
    if words:
        unknown = sum(1 for thing in things if thing.value is None)
        more = _.count("{n} line without a value", "{n} lines without a value", unknown) if unknown else ""
        yield Pair(_("value for the insurance"), join(", ", (words, more)))
        lent = _value(desk, [thing for thing in things if thing.owner in ("borrowed", "rented")])
        if lent and lent != words:
            yield Pair(_("of it not our own"), lent)
    for name, mount in desk.shoot.plan.film.mounts.items():
        if mount.note:
            yield Pair(plain(name), "; ".join(mount.note))


def _weight(desk: Desk, things: list[Thing]) -> str:
    """What things weigh together, every piece counted, and how many lines of the list are not weighed."""
    _ = desk.words
    weight = sum((thing.weight or 0.0) * _count(thing) for thing in things)
    unknown = sum(1 for thing in things if thing.weight is None)
    if not weight:
        return ""
    words = desk.say.value("weight", round(weight, 1 if weight < 20 else 0))
    more = _.count("{n} line not weighed", "{n} lines not weighed", unknown) if unknown else ""
    return join(", ", (words, more))


def _value(desk: Desk, things: list[Thing]) -> str:
    """What things are worth together, currency by currency."""
    cents: dict[str, int] = {}
    for thing in things:
        if thing.value:
            cents[thing.value.currency] = cents.get(thing.value.currency, 0) + thing.value.cents * _count(thing)
    return " + ".join(desk.say.value("money", Money(total, currency)) for currency, total in sorted(cents.items()))


def _owner(desk: Desk, thing: Thing) -> str:
    _ = desk.words
    names = {"own": _("Our own"), "borrowed": _("Borrowed"), "rented": _("Rented"), "bought": _("Bought for this")}
    return names[thing.owner or "own"]


def _kind(desk: Desk, thing: Thing) -> str:
    _ = desk.words
    if not isinstance(thing, Gear):
        return _("stock")
    kinds = {
        "camera": _("camera"), "lens": _("lens"), "filter": _("filter"), "adapter": _("adapter"),
        "support": _("support"), "light": _("lamp"), "modifier": _("modifier"), "grip": _("grip"),
        "power": _("mains"), "battery": _("battery"), "charger": _("charger"), "media": _("card"),
        "reader": _("card reader"), "drive": _("disk"), "sound": _("sound"), "monitor": _("monitor"),
        "tool": _("tool"), "prop": _("prop"), "furniture": _("furniture"), "wardrobe": _("wardrobe"),
    }  # fmt: skip
    return kinds.get(thing.kind or "", thing.kind or "")


def _count(thing: Thing) -> int:
    return 1 if thing.quantity is None else thing.quantity
