"""Sharing pieces out, against the maximum flow of NetworkX."""

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from catalog.reckoning.sharing_out import share_out

WISHES = st.dictionaries(
    st.integers(0, 9).map("place {}".format),
    st.lists(st.sampled_from("abcdef"), unique=True, max_size=4),
    max_size=10,
)
SUPPLY = st.fixed_dictionaries({piece: st.integers(1, 3) for piece in "abcdef"})


@given(WISHES, SUPPLY)
@settings(max_examples=80, deadline=None)
def test_as_many_places_get_a_piece_as_the_maximum_flow_says(wishes, supply):
    network = nx.DiGraph()
    network.add_nodes_from(["source", "sink"])
    for place, pieces in wishes.items():
        network.add_edge("source", place, capacity=1)
        network.add_edges_from((place, piece, {"capacity": 1}) for piece in pieces)
    for piece, count in supply.items():
        network.add_edge(piece, "sink", capacity=count)

    assert len(share_out(wishes, supply)) == nx.maximum_flow_value(network, "source", "sink")
