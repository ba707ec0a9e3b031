"""Sharing pieces out: as many places as possible, the first ones first."""

from hypothesis import given, settings
from hypothesis import strategies as st

from catalog.reckoning.sharing_out import share_out

PIECES = st.lists(st.sampled_from("abcdef"), unique=True, max_size=5)
WISHES = st.dictionaries(st.sampled_from("123456789"), PIECES, max_size=7)
SUPPLY = st.fixed_dictionaries({piece: st.integers(1, 2) for piece in "abcdef"})


def test_nothing_is_shared_out_of_nothing():
    assert share_out({}, {"a": 1}) == {}
    assert share_out({"L1": ["a"]}, {}) == {}


def test_place_named_first_has_its_first_wish():
    assert share_out({"L1": ["a", "b"], "R1": ["a", "b"]}, {"a": 1, "b": 1}) == {
        "L1": "a",
        "R1": "b",
    }


def test_earlier_place_is_served_when_there_is_too_little():
    assert share_out({"L1": ["a"], "R1": ["a"]}, {"a": 1}) == {"L1": "a"}


def test_place_gives_way_along_a_chain():
    wishes = {"1": ["a", "b"], "2": ["b", "c"], "3": ["a"], "4": ["b"]}

    assert share_out(wishes, {"a": 1, "b": 1, "c": 1}) == {"1": "b", "2": "c", "3": "a"}


@given(WISHES, SUPPLY)
@settings(max_examples=60, deadline=None)
def test_no_piece_is_given_twice_or_where_it_is_not_wished(wishes, supply):
    given_out = share_out(wishes, supply)

    assert all(piece in wishes[place] for place, piece in given_out.items())
    counts = [list(given_out.values()).count(piece) for piece in supply]
    assert all(count <= supply[piece] for count, piece in zip(counts, supply, strict=True))
