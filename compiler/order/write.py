"""Writing an order back into the plan: nothing of the text changes but `order:` of the day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..source.compose import compose
from ..source.splice import flow_list, plain, scalar, set_in_map
from ..source.tree import Mapping, Node, Sequence

if TYPE_CHECKING:
    from ..plan import Plan


def order_text(order: tuple[str, ...]) -> str:
    """An order as the plan writes it: a list on one line."""
    return flow_list(order)


def written(plan: Plan, day_id: str, order: tuple[str, ...]) -> tuple[int, str]:
    """(index of the file, its new text) with this order agreed for the day. Raises `CannotSplice` of
    `source.splice` where the text does not allow it; it says what to write by hand."""
    node = plan.value_at(f"days.{day_id}")
    index = node.file if node is not None else 0
    text = plan.source.files[index].text
    return index, line_by_line(text, day_id, order) or set_in_map(text, ["days", day_id], "order", order_text(order))


def line_by_line(text: str, day_id: str, order: tuple[str, ...]) -> str | None:
    """A list that is written one entry a line in its new order: each entry keeps its comments, new entries get a line
    of their own. None where it is not written so, or where a comment would go with an entry that is left out."""
    root = compose(text).root
    old = _find(root, ("days", day_id, "order"))
    if not isinstance(root, Mapping) or not isinstance(old, Sequence) or old.flow or not old.items:
        return None
    ends = [text.find("\n", item.end) + 1 for item in old.items]
    dash = text.rfind("-", 0, old.items[0].start)
    start = text.rfind("\n", 0, text.rfind(":", 0, old.start)) + 1
    first = text.find("\n", start) + 1
    if 0 in ends or not start or (text[first:dash].strip(" ") and "#" not in text[first:dash]):
        return None
    lines: dict[str, list[str]] = {}
    for name, begin, end in zip(plain(old), [first, *ends], ends, strict=False):
        lines.setdefault(name, []).append(text[begin:end])
    indent = text[text.rfind("\n", 0, dash) + 1 : dash]
    newline = "\r\n" if text[first - 2 : first] == "\r\n" else "\n"
    new = "".join(lines[n].pop(0) if lines.get(n) else f"{indent}- {scalar(n)}{newline}" for n in order)
    if any("#" in line for rest in lines.values() for line in rest):
        return None
    result = text[:first] + new + text[ends[-1] :]
    meant = plain(root)
    meant["days"][day_id]["order"] = list(order)
    read = compose(result)
    return result if read.root is not None and plain(read.root) == meant else None


def _find(node: Node | None, path: tuple[str, ...]) -> Node | None:
    for key in path:
        node = node.get(key) if isinstance(node, Mapping) else None
    return node
