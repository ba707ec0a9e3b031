"""Test what more pieces would change."""

from catalog.reckoning.assignment import Mating, Piece, one_more, shortest_shopping_list
from tests.reckoning.planning_samples import axle, wagons


def test_one_more_drawhead_finishes_a_wagon():
    gains = {each.component: each.gains for each in one_more(wagons(Piece("a", "drawhead", 3)))}

    assert gains == {"drawhead": (1, 1)}


def test_one_more_counts_two_pieces_that_only_help_together():
    gains = {each.component: each.gains for each in one_more(wagons(Piece("a", "drawhead", 2)))}

    assert gains == {"drawhead": (0, 1)}


def test_one_more_axle_is_of_the_size_of_its_brasses():
    sizes = {"b": "5x9"}
    shop = axle(Piece("b", "brass", 2), matings=(Mating.by_size("axle", "brass", sizes),))

    gains = {each.component: each.gains for each in one_more(shop)}

    assert gains == {"axle": (1, 1), "brass": (0, 0)}


def test_shortest_shopping_list_names_what_the_next_wagon_lacks():
    shopping = shortest_shopping_list(wagons(Piece("a", "drawhead", 3)))

    assert (shopping.pieces, shopping.bound, shopping.is_proven) == ({"drawhead": 1}, 1, True)
    assert len(shopping.completes) == 2


def test_shortest_shopping_list_for_a_wagon_takes_nothing_from_the_others():
    shopping = shortest_shopping_list(wagons(Piece("a", "drawhead", 3)), vehicle="31")

    assert shopping.pieces == {"drawhead": 1}
    assert "31" in shopping.completes


def test_shortest_shopping_list_is_nothing_when_every_wagon_is_complete():
    assert shortest_shopping_list(wagons(Piece("a", "drawhead", 6))) is None
