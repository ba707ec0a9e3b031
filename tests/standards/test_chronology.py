"""Chronology against networkx, an independent library of graph algorithms.

Source: networkx, ``negative_edge_cycle``, ``single_source_bellman_ford_path_length`` and
``simple_cycles``. A system x_j − x_i ≥ w is given to networkx as an edge of weight −w, so that
a contradiction is a cycle of negative weight and a closest bound is a shortest path
(Cormen, Leiserson, Rivest and Stein, *Introduction to Algorithms*, “Difference constraints and
shortest paths”).
"""

import datetime as dt
import random

import networkx as nx
import pytest

from catalog.reckoning.chronology import DatedEvent, Order, tighten
from catalog.reckoning.difference_constraints import (
    ORIGIN,
    Distance,
    is_possible,
    smallest_contradiction,
)

EPOCH = dt.date(1900, 1, 1)


def random_system(seed, *, points=7, orders=10):
    """Draw distances of which about half the systems contradict."""
    draw = random.Random(seed)
    pairs = [draw.sample(range(points), 2) for _ in range(orders)]
    return [
        Distance(start, end, draw.randint(-9, 4), name) for name, (start, end) in enumerate(pairs)
    ]


def as_graph(distances, points):
    graph = nx.DiGraph()
    graph.add_nodes_from(range(points))
    for one in distances:
        known = graph.get_edge_data(one.start, one.end, {"weight": -one.least})["weight"]
        graph.add_edge(one.start, one.end, weight=min(known, -one.least))
    return graph


def shortest_negative_cycle(graph):
    """Count the edges of the shortest negative cycle by going through all cycles."""
    return min(
        len(cycle)
        for cycle in nx.simple_cycles(graph)
        if sum(
            graph[one][other]["weight"]
            for one, other in zip(cycle, cycle[1:] + cycle[:1], strict=True)
        )
        < 0
    )


@pytest.mark.parametrize("seed", range(150))
def test_a_contradiction_is_found_exactly_where_networkx_finds_one(seed):
    distances = random_system(seed)
    graph = as_graph(distances, 7)

    assert is_possible(7, distances) != nx.negative_edge_cycle(graph)


IMPOSSIBLE = [seed for seed in range(150) if not is_possible(7, random_system(seed))]


def test_enough_random_systems_contradict_and_enough_do_not():
    assert 30 < len(IMPOSSIBLE) < 120


@pytest.mark.parametrize("seed", IMPOSSIBLE)
def test_a_contradiction_is_as_short_as_any(seed):
    distances = random_system(seed)
    circle = smallest_contradiction(7, distances)

    assert len(circle) == shortest_negative_cycle(as_graph(distances, 7))


@pytest.mark.parametrize("seed", IMPOSSIBLE)
def test_a_contradiction_goes_away_with_any_one_of_its_statements(seed):
    circle = smallest_contradiction(7, random_system(seed))

    assert not is_possible(7, circle)
    assert all(is_possible(7, [one for one in circle if one != left_out]) for left_out in circle)


def random_story(seed, events=12):
    """Draw events with true days, bounds around them, and orders that the true days keep."""
    draw = random.Random(seed)
    days = sorted(draw.randint(0, 4000) for _ in range(events))
    dated = []
    for number, day in enumerate(days):
        bounds = [day - draw.randint(0, 900), day + draw.randint(0, 900)]
        earliest, latest = (
            EPOCH + dt.timedelta(one) if draw.random() < 0.6 else None for one in bounds
        )
        dated.append(DatedEvent(str(number), earliest, latest))
    orders = []
    for _ in range(2 * events):
        one, other = draw.sample(range(events), 2)
        orders.append(Order(str(one), str(other), days[other] - days[one] - draw.randint(0, 300)))
    return dated, orders


def story_graph(events, orders):
    graph = nx.MultiDiGraph()
    graph.add_nodes_from(["origin", *(event.key for event in events)])
    for event in events:
        if event.earliest:
            graph.add_edge("origin", event.key, weight=-event.earliest.toordinal())
        if event.latest:
            graph.add_edge(event.key, "origin", weight=event.latest.toordinal())
    for order in orders:
        graph.add_edge(order.before, order.after, weight=-order.least_days)
    return graph


def bound(sign, distance):
    return None if distance is None else dt.date.fromordinal(sign * distance)


@pytest.mark.parametrize("seed", range(60))
def test_bounds_are_the_shortest_paths_of_networkx(seed):
    events, orders = random_story(seed)
    graph = story_graph(events, orders)
    forth = nx.single_source_bellman_ford_path_length(graph, "origin")
    back = nx.single_source_bellman_ford_path_length(graph.reverse(), "origin")

    tightened = tighten(events, orders)

    assert tightened.contradictions == ()
    for event in tightened.events:
        assert event.earliest == bound(-1, forth.get(event.key))
        assert event.latest == bound(1, back.get(event.key))


def test_the_origin_is_a_point_of_the_random_systems():
    assert any(ORIGIN in (one.start, one.end) for seed in IMPOSSIBLE for one in random_system(seed))


def test_a_system_without_contradiction_has_none_to_show():
    with pytest.raises(ValueError, match="nothing contradicts"):
        smallest_contradiction(2, [Distance(ORIGIN, 1, 5, 0)])
