"""Sharing work out, against the greatest flow of the graph library and against McNaughton's bound (1959)."""

from __future__ import annotations

import networkx
from hotset.science.sharing import Work, share
from hypothesis import given, settings
from hypothesis import strategies as st

HANDS = "abcd"
able = st.lists(st.sampled_from(HANDS), max_size=4, unique=True).map(tuple)
works = st.lists(st.builds(Work, st.integers(1, 9), st.lists(able, min_size=1, max_size=2).map(tuple)), max_size=5)
times = st.fixed_dictionaries({name: st.integers(0, 12) for name in HANDS})


@settings(max_examples=120, deadline=None)
@given(works, times)
def test_as_much_is_left_as_the_greatest_flow_leaves(tasks: list[Work], time: dict[str, int]) -> None:
    graph: networkx.DiGraph[object] = networkx.DiGraph()
    graph.add_nodes_from(("from", "to"))
    for name, much in time.items():
        graph.add_edge(name, "to", capacity=much)
    for k, task in enumerate(tasks):
        for p, names in enumerate(task.pairs):
            graph.add_edge("from", (k, p), capacity=task.length)
            for name in names:
                graph.add_edge((k, p), (k, name), capacity=task.length)
                graph.add_edge((k, name), name, capacity=task.length)
    most = networkx.maximum_flow_value(graph, "from", "to")
    found = share(tasks, time)
    assert found.left == sum(t.length * len(t.pairs) for t in tasks) - most
    for name, much in time.items():
        assert sum(done.get(name, 0) for done in found.done) <= much
    for task, done in zip(tasks, found.done, strict=True):
        assert set(done) <= {n for pair in task.pairs for n in pair}
        assert all(much <= task.length for much in done.values())


def test_equal_hands_need_the_longest_task_or_all_work_divided() -> None:
    """McNaughton: max(longest, sum / hands), where work may be handed over: 4, 3 and 3 are 5 long for two."""
    tasks = [Work(n, (("a", "b"),)) for n in (4, 3, 3)]
    assert share(tasks, {"a": 5, "b": 5}).left == 0
    assert share(tasks, {"a": 4, "b": 5}).left == 1
    assert share([Work(6, (("a", "b"),))], {"a": 4, "b": 4}).left == 0


def test_a_pair_of_hands_is_two_people() -> None:
    assert share([Work(4, (("a",), ("a", "b")))], {"a": 99}).left == 4
    assert share([Work(4, (("a",), ("a", "b")))], {"a": 99, "b": 4}).left == 0
