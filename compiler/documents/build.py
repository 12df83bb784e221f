"""All sheets of a plan: made, rendered, and only then written."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from functools import partial
from pathlib import Path
from typing import TypeVar

from ..pipeline import Compiled
from ..record import record, replace
from . import (
    after,
    art,
    calendars,
    call_sheet,
    camera,
    cast,
    crew,
    data,
    director,
    first_aid,
    gear_list,
    grip,
    index,
    lighting,
    place,
    risk,
    running_order,
    setup_card,
    sound,
    wardrobe,
)
from .desk import Desk
from .gather import shoot_of
from .marking import Marking
from .pdf import Paper, not_in_face, side_by_side, to_pdf, unavailable
from .render import render_html
from .say import Say
from .view import Sheet
from .words import Words, words_for
from .writer import Written, listed, write_all

T = TypeVar("T")

# In the order in which the index lists them.
DOCUMENTS: dict[str, Callable[[Desk], Iterator[Sheet]]] = {
    "call-sheet": call_sheet.sheets,
    "running-order": running_order.sheets,
    "crew": crew.sheets,
    "setup-card": setup_card.sheets,
    "director": director.sheets,
    "lighting": lighting.sheets,
    "grip": grip.sheets,
    "camera": camera.sheets,
    "sound": sound.sheets,
    "data": data.sheets,
    "art": art.sheets,
    "wardrobe": wardrobe.sheets,
    "cast": cast.sheets,
    "place": place.sheets,
    "risk": risk.sheets,
    "first-aid": first_aid.sheets,
    "gear-list": gear_list.sheets,
    "after-the-day": after.sheets,
    "calendar": calendars.sheets,
}


class BrokenSheet(Exception):
    """A sheet could not be made, which is a fault of hotset; the text names it and how to have the others."""


class NothingToBuild(Exception):
    """What was asked for is not in the plan; the text says what there is."""


@record
class BuildResult:
    """What a build did. `remarks` are sentences for standard error, such as why there is no PDF."""

    folder: Path
    written: tuple[str, ...]
    unchanged: tuple[str, ...]
    removed: tuple[str, ...]
    remarks: tuple[str, ...]


def build(
    compiled: Compiled, out_dir: Path, *, only: Sequence[str] = (), day: str | None = None, person: str | None = None,
    label: str = "", pdf: bool = True,
) -> BuildResult:
    """Makes every sheet of a readable plan, or those that `only`, `day` and `person` leave, and writes them.

    Raises NothingToBuild or writer.CannotWrite, each with one sentence, and then has written nothing.
    """
    asked = _Asked(tuple(only), day, person)
    files, keep, remarks = rendered(compiled, asked, label, pdf, listed(out_dir))
    result: Written = write_all(out_dir, files, keep)
    return BuildResult(out_dir, result.written, result.unchanged, result.removed, remarks)


@record
class _Asked:
    """Which sheets: kinds of document, a day, a person; nothing said means all."""

    only: tuple[str, ...] = ()
    day: str | None = None
    person: str | None = None

    def wants(self, sheet: Sheet) -> bool:
        return (
            (not self.only or sheet.document in self.only)
            and (self.day is None or sheet.day in (self.day, ""))
            and (self.person is None or not sheet.people or self.person in sheet.people)
        )

    def refuse(self, desk: Desk) -> None:
        plan = desk.shoot.plan
        days = [line.day.id for line in desk.shoot.days if line.day.id]
        for what, asked, known in (
            ("day", [self.day] if self.day is not None else [], days),
            ("person", [self.person] if self.person is not None else [], list(plan.people)),
            ("document", list(self.only), [*DOCUMENTS, "index"]),
        ):
            for name in asked:
                if name not in known:
                    listed = ", ".join(known) or "none"
                    raise NothingToBuild(f"there is no {what} called '{name}'; there are: {listed}")


def rendered(
    compiled: Compiled, asked: _Asked, label: str, pdf: bool, there: frozenset[str]
) -> tuple[dict[str, bytes], frozenset[str], tuple[str, ...]]:
    """The files of the sheets asked for, the names of those that stay as they are, and remarks.

    `there` are the files of an earlier build, which the index goes on linking.
    """
    plan = compiled.plan
    if plan is None:
        raise NothingToBuild("the plan cannot be read: mend what 'hotset check' says first")
    words = words_for(plan.film.language or "en")
    shoot = shoot_of(compiled, words, label)
    say = Say(plan, words)
    desk = Desk(shoot, words, say, Marking(shoot, say))
    asked.refuse(desk)
    sheets = _distinct([sheet for make in DOCUMENTS.values() for sheet in make(desk)])
    remarks: list[str] = []
    reason = unavailable() if pdf else None
    if reason:
        remarks.append(reason)
    files: dict[str, bytes] = {}
    keep: set[str] = set()
    pages: dict[str, tuple[Sheet, Future[bytes]]] = {}
    missing = ""
    # The engine works outside of Python's lock: while one page is printed the next is written.
    with side_by_side(), ThreadPoolExecutor(1) as printers:
        for sheet in sheets:
            if not asked.wants(sheet):
                keep |= {f"{sheet.file}.{ending}" for ending in index.ENDINGS}
                continue
            if sheet.text is not None:
                files[f"{sheet.file}.{sheet.ending}"] = _made(sheet, sheet.text).encode("utf-8")
                continue
            page = _page(sheet, words)
            files[f"{sheet.file}.html"] = page.encode("utf-8")
            if sheet.csv:
                files[f"{sheet.file}.csv"] = _made(sheet, sheet.csv).encode("utf-8-sig")
            if pdf and sheet.pdf and reason is None:
                pages[f"{sheet.file}.pdf"] = (sheet, printers.submit(to_pdf, page, _paper(sheet)))
                missing += not_in_face(page)
        files |= {name: _made(sheet, printed.result) for name, (sheet, printed) in pages.items()}
    linked = frozenset(files) | (there & keep)
    files["index.html"] = render_html(index.sheet(desk, tuple(sheets), linked), words).encode("utf-8")
    if missing:
        signs = "".join(dict.fromkeys(missing))
        remarks.append(f"the PDF sheets cannot show these letters, the HTML sheets can: {signs}")
    if words.language != (plan.film.language or "en"):
        remarks.append(f"the sheets are in English: there is no catalogue of words for '{plan.film.language}' yet")
    return files, frozenset(keep), tuple(remarks)


def _page(sheet: Sheet, words: Words) -> str:
    return _made(sheet, partial(render_html, sheet, words))


def _made(sheet: Sheet, make: Callable[[], T]) -> T:
    """What `make` gives; a fault in it is told with the sheet that has it and the way to the other sheets."""
    try:
        return make()
    except Exception as fault:
        others = " ".join(f"--only {name}" for name in DOCUMENTS if name != sheet.document)
        raise BrokenSheet(
            f"the sheet '{sheet.file}' cannot be made ({type(fault).__name__}: {fault}): this is a fault of hotset, "
            f"not of the plan, please report it; nothing was written. All other kinds of sheet: {others}"
        ) from fault


def _paper(sheet: Sheet) -> Paper:
    return "Letter" if sheet.head.paper == "Letter" else "A4"


def _distinct(sheets: list[Sheet]) -> list[Sheet]:
    """Ids that differ only in what a file name cannot hold still get files of their own."""
    seen: dict[str, int] = {}
    out = []
    for sheet in sheets:
        seen[sheet.file] = seen.get(sheet.file, 0) + 1
        out.append(replace(sheet, file=f"{sheet.file}-{seen[sheet.file]}") if seen[sheet.file] > 1 else sheet)
    return out
