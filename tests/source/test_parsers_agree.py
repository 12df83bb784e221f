"""The C parser and the pure Python one lead to the same tree and the same findings, places included."""

from __future__ import annotations

from typing import Any

import pytest
from hotset.source import Mapping, Node, Scalar, Sequence
from hotset.source.compose import compose
from hypothesis import given, settings
from hypothesis import strategies as st

TEXTS = [
    "a: {call: 07:30, b: x:y, c: a, d: 'x', e: , f: http://x.y}\n", "a: {b:1, c: 2}\n", "a: {07:30: x}\n",
    "'a': {'b':1}\n", "a:\n- 1\n-\n- b:\n  c: 2\n- - x\n  - y\n",
    "a: |\n  x: y\n\n  z\nb: >-\n  one\n  two\n\nc: 1\n", "a: one\n  two\n  three\nb: \"x\n  y\"\n",
    "a: &x {b: 1}\nc: *x\nd: &y\n  - 1\ne: [*x, *y]\n", "a: \u2028x\u2029 \x85y\nb: 😀 z\nc: 1\n",
    "a:\tb\nc:\t\t'd'\n", "# only\n", "", "---\na: 1\n...\n", "a: 1\r\nb:\r\n  c: 2\r\n", "a: #4 x\nb: y #5\n",
    "a: {b, c: 1, d}\n", "a: {b: one, two, c: 3}\n", "a: [\n  1, # x\n  2\n]\n", "a: {\n\tb: 1}\n", "? a\n: b\n",
    "a: ''\nb: \"\"\n", "a: ~\nb: null\n", "%YAML 1.2\n---\na: 1\n", "a: &x 1\nb: &x 2\nc: *x\n",
    "a: \ue000:b\nc: {d: \ue000x:y}\n", "a: [b c: d]\n", "a: {b: [c, {d: e}], f}\n", "a: *b\n", "a: [1\n", "a: 'x\n",
    "a: b: c\n", "a:\n  b: 1\n c: 2\n", "%x\na: 1\n", "a: @x\n", "a: \"\\q\"\n", "a: -\n", "a: [,]\n", "a: }\n",
    "a: 1\n\t\nb: 2\n", "{a: 1}\nb\n", "a: 1\n- b\n", "a: !x 1\n", "<<: 1\n", "a: 1\n---\nb: 1\n",
    "a: [07:30, b, d: e]\n",
]  # fmt: skip

PIECES = ["a", "b", ": ", ":", "\n", "  ", "- ", ",", "{", "}", "[", "]", "1 m", "#4", "'"]
# What the C parser reads and the other refuses: nothing that a person types on purpose.
ONLY_C = ["a: ['b':c]\n", "a\tb: 1\n"]


def seen(node: Node | None) -> Any:
    if node is None:
        return None
    place = (type(node).__name__, node.line, node.column, node.start, node.end)
    if isinstance(node, Scalar):
        return (*place, node.text, node.quoted)
    if isinstance(node, Sequence):
        return (*place, node.flow, [seen(item) for item in node.items])
    assert isinstance(node, Mapping)
    return (*place, node.flow, [(seen(key), seen(value)) for _, key, value in node])


def both(text: str) -> tuple[Any, Any]:
    c, pure = compose(text, pure=False), compose(text, pure=True)
    return (seen(c.root), c.stopped, c.faults), (seen(pure.root), pure.stopped, pure.faults)


@pytest.mark.parametrize("text", TEXTS)
def test_same_tree_and_findings(text: str) -> None:
    c, pure = both(text)
    assert c == pure


@pytest.mark.parametrize("text", ONLY_C)
def test_where_they_differ_the_other_refuses_in_words(text: str) -> None:
    c, pure = both(text)
    assert c[1] is None
    assert pure[1] is not None
    assert pure[1].sentence


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from(PIECES), max_size=14))
def test_where_both_read_a_text_they_read_the_same(parts: list[str]) -> None:
    c, pure = both("".join(parts))
    if c[1] is None and pure[1] is None:
        assert c == pure


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet="ab:,-#{}[]'\"*&!|>%@? \n\t\\1é", max_size=40))
def test_no_text_breaks_the_reader(text: str) -> None:
    done = compose(text)
    faults = [fault for fault, _ in done.faults] + ([done.stopped] if done.stopped else [])
    assert all(0 <= fault.at <= len(text) for fault in faults)
    assert all(fault.sentence and fault.ways_out for fault in faults)
