"""A second engine for days with a single piece to a group: a model for CP-SAT, written without a look at the search.

One circuit over the setups gives the order; each piece has a path of its own through the setups that want it, tied to
the order by literals, and pays from state to state. No meals, holds or absences; windows, precedences, room changes,
fixed minutes, the longest task and the riggers are in it.
"""

from __future__ import annotations

from hotset.facts.numbers import Day, meet
from ortools.sat.python import cp_model

Literal = cp_model.IntVar


def proved_wrap(day: Day, seconds: float) -> tuple[int | None, bool]:
    """(the earliest wrap that CP-SAT knows of, or None; whether it proved that). `seconds` are its deterministic."""
    model = cp_model.CpModel()
    n, end = len(day.setups), min(day.latest_wrap, day.call + 2880) - day.pack
    starts = [model.new_int_var(day.call, end, f"start {i}") for i in range(n)]
    rigs = [model.new_int_var(0, end - day.call, f"rig {i}") for i in range(n)]
    earlier = {(i, j): model.new_bool_var(f"{i} before {j}") for i in range(n) for j in range(n) if i != j}
    for i in range(n):
        for j in range(i):
            model.add(earlier[i, j] + earlier[j, i] == 1)
    for a, b in day.before:
        model.add(earlier[a, b] == 1)
    _circuit(model, day, starts, rigs, earlier)
    _rigging(model, day, rigs, earlier)
    for i, s in enumerate(day.setups):
        choices = []
        for lo, hi in meet(s.windows):
            inside = model.new_bool_var(f"{i} in window")
            model.add(starts[i] >= max(lo, day.call)).only_enforce_if(inside)
            model.add(starts[i] + s.takes <= min(hi, end)).only_enforce_if(inside)
            choices.append(inside)
        model.add_bool_or(choices)
    wrap = model.new_int_var(day.call, end, "wrap")
    for i, s in enumerate(day.setups):
        model.add(wrap >= starts[i] + s.takes)
    model.minimize(wrap)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = seconds
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None, True
    if status == cp_model.OPTIMAL:
        return round(solver.objective_value) + day.pack, True
    return None, False


def _circuit(
    model: cp_model.CpModel,
    day: Day,
    starts: list[Literal],
    rigs: list[Literal],
    earlier: dict[tuple[int, int], Literal],
) -> None:
    """Who follows whom: travel and rigging lie between the takes of the one and of the other."""
    n = len(day.setups)
    arcs = []
    for i in range(n):
        first, last = model.new_bool_var(f"first {i}"), model.new_bool_var(f"last {i}")
        arcs += [(n, i, first), (i, n, last)]
        room = day.setups[i].room
        trip = day.arrive[room] if day.room < 0 else day.travel[day.room][room]
        model.add(starts[i] >= day.call + trip + rigs[i]).only_enforce_if(first)
        for j in range(n):
            if i == j:
                continue
            follows = model.new_bool_var(f"{j} follows {i}")
            arcs.append((i, j, follows))
            model.add_implication(follows, earlier[i, j])
            model.add(
                starts[j] >= starts[i] + day.setups[i].takes + day.travel[room][day.setups[j].room] + rigs[j]
            ).only_enforce_if(follows)
            model.add(starts[j] >= starts[i] + day.setups[i].takes).only_enforce_if(earlier[i, j])
    model.add_circuit(arcs)


def _rigging(model: cp_model.CpModel, day: Day, rigs: list[Literal], earlier: dict[tuple[int, int], Literal]) -> None:
    """Each piece goes along its own path through the setups that ask something of it."""
    work: list[list[cp_model.LinearExprT]] = [[] for _ in day.setups]
    for g, group in enumerate(day.groups):
        asked: dict[int, int] = {}
        for i, s in enumerate(day.setups):
            for ((k, state),) in s.needs:
                if k == g:
                    asked[i] = state
        depot, users = len(day.setups), list(asked)
        if not users:
            continue
        arcs = []
        for i in users:
            tasks = [(depot, group.cost[group.start[0]][asked[i]])]
            tasks += [(j, group.cost[asked[j]][asked[i]]) for j in users if j != i]
            for j, minutes in tasks:
                comes = model.new_bool_var(f"{group.name} from {j} to {i}")
                arcs.append((users.index(j) if j != depot else len(users), users.index(i), comes))
                if j != depot:
                    model.add_implication(comes, earlier[j, i])
                if not day.setups[i].flat and minutes:
                    work[i].append(minutes * group.hands * comes)
                    model.add(rigs[i] >= day.setups[i].fixed + minutes).only_enforce_if(comes)
            arcs.append((users.index(i), len(users), model.new_bool_var(f"{group.name} stays {i}")))
        model.add_circuit(arcs)
    for i, s in enumerate(day.setups):
        model.add(rigs[i] >= s.fixed)
        model.add(day.riggers * (rigs[i] - s.fixed) >= sum(work[i]))
