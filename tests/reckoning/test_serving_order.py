"""What is left over goes to earlier vehicles, at no cost to the plan."""

import pytest

from catalog.reckoning.assignment import Fit, Mating, Piece, Place, Shop, best_use
from catalog.reckoning.serving_order import serve_in_order

RANKS = {"14": 1, "22": 2, "31": 3}


def hooks(vehicle, count=2):
    return [
        Place(f"{vehicle}/{n}", vehicle, "hook", is_essential=True, specification="hook")
        for n in range(count)
    ]


def shop(pieces, fits=None, **values):
    places = tuple(place for vehicle in RANKS for place in hooks(vehicle))
    fits = fits or tuple(Fit(piece.key, "hook", 0.9) for piece in pieces)
    return Shop(places, tuple(pieces), fits, **{"ranks": RANKS, **values})


def test_left_over_piece_moves_to_the_first_vehicle_that_waits():
    given = shop([Piece(key, "hook") for key in "abc"])

    served = serve_in_order(given, {"14/0": "a", "14/1": "b", "31/0": "c"}, ["14"])

    assert served == {"14/0": "a", "14/1": "b", "22/0": "c"}


def test_complete_vehicles_give_nothing_up():
    given = shop([Piece("a", "hook"), Piece("b", "hook")])
    plan = {"31/0": "a", "31/1": "b"}

    assert serve_in_order(given, plan, ["31"]) == plan


def test_vehicles_of_one_rank_take_nothing_from_each_other():
    given = shop([Piece("a", "hook")], ranks={})

    assert serve_in_order(given, {"31/0": "a"}, []) == {"31/0": "a"}


@pytest.mark.parametrize(
    "piece",
    [Piece("a", "hook", came_off="31"), Piece("a", "hook", held_for="31")],
)
def test_piece_that_belongs_to_a_vehicle_stays_there(piece):
    assert serve_in_order(shop([piece]), {"31/0": "a"}, []) == {"31/0": "a"}


def test_less_sound_fit_is_not_worth_it():
    fits = (Fit("a", "hook", 0.9), Fit("a", "14/0", 0.5), Fit("a", "14/1", 0.5))
    given = shop([Piece("a", "hook")], fits)

    assert serve_in_order(given, {"31/0": "a"}, []) == {"22/0": "a"}


def test_piece_goes_where_it_mates():
    places = tuple(
        Place(f"{vehicle}/{name}", vehicle, name, True, "L1", name)
        for vehicle in ("14", "31")
        for name in ("box", "brass")
    )
    fits = (Fit("box", "box", 0.9), Fit("brass", "brass", 0.9))
    clash = Mating("box", "brass", frozenset({("box", "brass")}))
    given = Shop(places, (), fits, (clash,), ranks=RANKS)
    plan = {"14/box": "box", "31/brass": "brass"}

    assert serve_in_order(given, plan, []) == plan


def test_value_of_the_plan_stays_what_it_was():
    given = shop([Piece(key, "hook") for key in "abc"])
    best = best_use(given)

    served = serve_in_order(given, best.assignments, best.complete)

    assert len(served) == len(best.assignments)
    assert sorted(served.values()) == sorted(best.assignments.values())
    assert {key for key in served if key.startswith("22")} == {"22/0"}


def making(plan, complete, **values):
    """Serve wagons 14 and 22 of a hook in hand and one to be made."""
    piece = Piece("ready", "hook", **values)
    made = Piece("made", "hook", 9, cost=180)
    fits = (Fit("ready", "hook", 0.9), Fit("made", "hook", 0.0))
    places = tuple(hooks(vehicle, 1)[0] for vehicle in RANKS)
    given = Shop(places, (piece, made), fits, ranks=RANKS)
    return serve_in_order(given, plan, complete)


def test_earlier_vehicle_has_what_is_ready_and_the_later_what_is_to_be_made():
    served = making({"14/0": "made", "22/0": "ready"}, ["14", "22"])

    assert served == {"14/0": "ready", "22/0": "made"}


@pytest.mark.parametrize(
    ("complete", "values"),
    [
        (["22"], {}),
        (["14", "22"], {"came_off": "22"}),
        (["14", "22"], {"held_for": "22"}),
    ],
)
def test_what_is_ready_stays_with_a_later_vehicle(complete, values):
    plan = {"14/0": "made", "22/0": "ready"}

    assert making(plan, complete, **values) == plan
