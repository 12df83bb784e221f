"""Hands for jobs, with networkx as the reference."""

from __future__ import annotations

import networkx as nx
from hotset.science.matching import Matching, match
from hypothesis import given
from hypothesis import strategies as st

JOBS = st.dictionaries(
    st.sampled_from([f"job{i}" for i in range(8)]),
    st.lists(st.sampled_from([f"hand{i}" for i in range(7)]), unique=True, max_size=5),
    max_size=8,
)


def check(jobs: dict[str, list[str]], found: Matching) -> None:
    assert len(set(found.given.values())) == len(found.given)
    assert all(hand in jobs[job] for job, hand in found.given.items())
    assert set(found.given) | set(found.left) == set(jobs)


@given(JOBS)
def test_as_many_jobs_as_the_reference_serves(jobs: dict[str, list[str]]) -> None:
    found = match(jobs)
    check(jobs, found)
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from(jobs, bipartite=0)
    graph.add_edges_from((job, hand) for job, hands in jobs.items() for hand in hands)
    reference = nx.bipartite.hopcroft_karp_matching(graph, top_nodes=list(jobs))
    assert len(found.given) == sum(job in reference for job in jobs)


@given(JOBS)
def test_a_shortage_proves_itself(jobs: dict[str, list[str]]) -> None:
    found = match(jobs)
    assert bool(found.left) == bool(found.shortages)
    for shortage in found.shortages:
        could = {hand for job in shortage.jobs for hand in jobs[job]}
        assert could == set(shortage.hands)
        assert len(shortage.hands) < len(shortage.jobs)


def test_a_hand_is_moved_to_free_another() -> None:
    found = match({"boom": ["jon", "ada"], "focus": ["jon"]})
    assert found.given == {"boom": "ada", "focus": "jon"}
    assert found.left == ()


def test_the_best_liked_hand_is_taken() -> None:
    assert match({"boom": ["jon", "ada"], "focus": ["olek"]}).given["boom"] == "jon"


def test_three_jobs_and_two_hands() -> None:
    found = match({"camera": ["olek"], "boom": ["jon", "olek"], "lamp": ["jon"], "slate": ["ada"]})
    assert found.left == ("lamp",)
    assert found.shortages[0].jobs == ("camera", "boom", "lamp")
    assert sorted(found.shortages[0].hands) == ["jon", "olek"]


def test_a_job_nobody_can_do() -> None:
    found = match({"drive": []})
    assert found.shortages[0].hands == ()
