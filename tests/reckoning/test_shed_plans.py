"""Places as nested boxes: nothing lies over anything else, and nothing gets too small."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.shed_plans import (
    LEAST_HEIGHT,
    LEAST_WIDTH,
    Place,
    lay_out,
    pruned,
    walk,
    wrapped,
)

NAMES = st.text(alphabet="Rack 12äß›…", min_size=1, max_size=30)


def numbered(trees):
    """Give every place a key of its own."""
    keys = iter(range(1, 10_000))

    def again(place):
        key = next(keys)
        return Place(key, place.name, place.note, place.is_stack, tuple(map(again, place.inside)))

    return tuple(map(again, trees))


PLACES = st.recursive(
    st.builds(Place, st.just(0), NAMES, st.just("3 parts")),
    lambda inner: st.builds(
        Place,
        st.just(0),
        NAMES,
        st.just("12 parts"),
        st.booleans(),
        st.lists(inner, max_size=5).map(tuple),
    ),
    max_leaves=25,
)
TREES = st.lists(PLACES, max_size=4).map(numbered)


def overlap(one, other):
    across = min(one.x + one.width, other.x + other.width) - max(one.x, other.x)
    down = min(one.y + one.height, other.y + other.height) - max(one.y, other.y)
    return across > 0.01 and down > 0.01


def holds(outer, inner):
    return (
        outer.x - 0.01 <= inner.x
        and outer.y - 0.01 <= inner.y
        and inner.x + inner.width <= outer.x + outer.width + 0.01
        and inner.y + inner.height <= outer.y + outer.height + 0.01
    )


@given(TREES, st.sampled_from([328.0, 1000.0]))
def test_boxes_lie_within_what_holds_them_and_beside_one_another(trees, width):
    plan = lay_out(trees, width)
    boxes = {box.key: box for box in plan.boxes}

    assert set(boxes) == {place.key for tree in trees for place in walk(tree)}
    for place in (place for tree in trees for place in walk(tree)):
        own = [boxes[one.key] for one in place.inside]
        assert all(holds(boxes[place.key], box) for box in own)
        assert not any(overlap(*pair) for pair in combinations(own, 2))
    assert not any(overlap(*pair) for pair in combinations([boxes[t.key] for t in trees], 2))
    assert all(box.x + box.width <= width + 0.01 for box in boxes.values())
    assert all(box.y + box.height <= plan.height + 0.01 for box in boxes.values())


@given(TREES)
def test_every_box_can_be_hit_with_a_thumb(trees):
    assert all(box.height >= LEAST_HEIGHT for box in lay_out(trees, 1000.0).boxes)


def test_deep_places_are_still_wide_enough_on_a_phone():
    deep = Place(9, "Tin 1")
    for key in range(8, 3, -1):
        deep = Place(key, "Crate", inside=(deep,))

    assert min(box.width for box in lay_out([deep], 328.0).boxes) >= LEAST_WIDTH


def test_same_tree_is_drawn_the_same_way():
    tree = Place(1, "Shed", inside=tuple(Place(key, f"Bay {key}") for key in range(2, 9)))

    assert lay_out([tree], 328.0) == lay_out([tree], 328.0)


def test_shelves_of_a_rack_stand_above_one_another_and_boxes_beside():
    shelves = (Place(2, "Shelf 1"), Place(3, "Shelf 2", inside=(Place(4, "A"), Place(5, "B"))))
    boxes = {
        b.key: b for b in lay_out([Place(1, "Rack", is_stack=True, inside=shelves)], 400).boxes
    }

    assert boxes[2].y + boxes[2].height == boxes[3].y
    assert (boxes[2].x, boxes[2].width) == (boxes[3].x, boxes[3].width)
    assert boxes[4].y == boxes[5].y


def test_what_stands_in_a_row_stands_on_one_floor():
    rack = Place(2, "Rack", inside=(Place(3, "Shelf 1"),))
    boxes = {b.key: b for b in lay_out([rack, Place(4, "Pallet")], 600).boxes}

    assert boxes[2].height > boxes[4].height
    assert boxes[2].y + boxes[2].height == boxes[4].y + boxes[4].height


def test_nothing_to_draw_takes_no_room():
    plan = lay_out([], 328.0)

    assert (plan.height, plan.boxes) == (0.0, ())


@given(TREES, st.integers(1, 30))
def test_innermost_places_are_left_out_first(trees, most):
    left = [place.key for tree in pruned(trees, most) for place in walk(tree)]

    assert {tree.key for tree in trees} <= set(left)
    assert len(left) <= max(most, len(trees))


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        ("Shelf 1", ("Shelf 1",)),
        ("Store behind the engine house", ("Store behind", "the engine h…")),
        ("Donaudampfschifffahrtskiste", ("Donaudampfsc…",)),
        ("", ("",)),
    ],
)
def test_long_names_take_two_lines_and_then_dots(words, lines):
    assert wrapped(words, 100) == lines
