"""Test the best use of parts on cases small enough to see through."""

import random
from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalog.reckoning.assignment import (
    Fit,
    Mating,
    Piece,
    Place,
    PlanningError,
    Route,
    Shop,
    best_use,
    strict_order,
)
from tests.benchmarks.planning_collections import collection, one_component_scarce
from tests.reckoning.planning_samples import axle, is_lawful, mates, wagons


def test_best_use_completes_one_wagon_rather_than_starting_two():
    shop = wagons(Piece("a", "drawhead"), Piece("b", "drawhead"))

    use = best_use(shop)

    assert use.complete == ("14",)
    assert use.assignments.keys() == {"14/D1", "14/D2"}


def test_best_use_of_a_lot_uses_no_more_than_its_quantity():
    use = best_use(wagons(Piece("lot", "drawhead", quantity=5)))

    assert use.complete == ("14", "22")
    assert list(use.assignments.values()) == ["lot"] * 5
    assert use.unfilled == ("14/lid", "22/lid", "31/D2", "31/lid")


def test_best_use_keeps_what_is_fixed_and_counts_it():
    shop = wagons(Piece("a", "drawhead"), Piece("b", "drawhead"), fixed={"31/D2": "b"})

    use = best_use(shop)

    assert use.assignments == {"31/D1": "a"}
    assert use.complete == ("31",)


def test_best_use_keeps_a_held_piece_for_its_vehicle():
    use = best_use(wagons(Piece("a", "drawhead", held_for="22"), Piece("b", "drawhead")))

    assert use.complete == ("22",)
    assert sorted(use.assignments.values()) == ["a", "b"]


def test_best_use_puts_a_piece_back_where_it_came_off_when_otherwise_equal():
    pieces = [Piece("a", "lid", came_off="31"), Piece("b", "lid"), Piece("c", "lid")]

    use = best_use(wagons(*pieces))

    assert use.assignments["31/lid"] == "a"


def test_best_use_prefers_the_sounder_fit_over_the_old_vehicle():
    shop = wagons(Piece("a", "lid", came_off="31"))
    shop = replace(shop, places=tuple(replace(p, specification="") for p in shop.places))
    shop = replace(shop, fits=(Fit("a", "31/lid", 0.90), Fit("a", "14/lid", 0.92)))

    use = best_use(shop)

    assert use.assignments == {"14/lid": "a"}


def test_best_use_in_strict_order_serves_the_first_before_two_others():
    # Wagon 31 lacks two drawheads; the others lack only one each.
    fixed = {"14/D1": "x", "22/D1": "y"}
    pieces = [Piece(key, "drawhead") for key in "abxy"]
    equal = wagons(*pieces, fixed=fixed)

    strict = replace(equal, ranks=strict_order(["31", "14", "22"]))

    assert best_use(equal).complete == ("14", "22")
    assert best_use(strict).complete == ("31",)


def test_best_use_with_weights_completes_the_weightier_vehicle():
    shop = wagons(Piece("lot", "drawhead", quantity=2), weights={"31": 2})

    use = best_use(shop)

    assert (use.complete, use.levels[0].value) == (("31",), 2)
    assert use.levels[0].sentence() == "1 complete vehicles, worth 2 by their weights"
    assert use.sentence() == "1 complete, worth 2 by their weights"


def test_weights_that_are_all_one_are_not_spoken_of():
    shop = wagons(Piece("lot", "drawhead", quantity=2), weights={"31": 1, "14": 1})

    assert best_use(shop).sentence() == "1 complete"


def test_best_use_never_mates_two_sizes():
    sizes = {"axle": "5x9", "b1": "5x9", "b2": "4x8"}
    pieces = [Piece("axle", "axle"), Piece("b1", "brass"), Piece("b2", "brass")]

    shop = axle(*pieces, matings=(Mating.by_size("axle", "brass", sizes),))

    use = best_use(shop)

    assert (len(use.assignments), use.complete) == (2, ())
    assert mates(shop, use.assignments)


def test_best_use_leaves_the_axle_out_when_two_brasses_are_worth_more():
    sizes = {"axle": "3x7", "b1": "5x9", "b2": "4x8"}
    pieces = [Piece("axle", "axle"), Piece("b1", "brass"), Piece("b2", "brass")]

    use = best_use(axle(*pieces, matings=(Mating.by_size("axle", "brass", sizes),)))

    assert use.assignments.keys() == {"14/L1", "14/R1"}


def test_best_use_mates_with_what_is_fixed():
    sizes = {"axle": "5x9", "good": "5x9", "sound": "4x8"}
    pieces = [Piece("good", "brass", 2), Piece("sound", "brass", 2), Piece("axle", "axle")]
    rule = Mating.by_size("axle", "brass", sizes)

    use = best_use(axle(*pieces, matings=(rule,), fixed={"14/A1": "axle"}))

    assert use.assignments == {"14/L1": "good", "14/R1": "good"}


def test_best_use_obeys_rules_that_are_not_sizes():
    # The first axle takes b and c, the second c and d: no two sizes describe that.
    rule = Mating("axle", "brass", frozenset({("first", "d"), ("second", "b")}))
    pieces = [Piece(key, "axle") for key in ("first", "second")]
    pieces += [Piece(key, "brass") for key in "bcd"]

    use = best_use(axle(*pieces, matings=(rule,)))

    held = (use.assignments["14/A1"], use.assignments["14/L1"], use.assignments["14/R1"])
    assert use.complete == ("14",)
    assert (held[0], {*held[1:]}) in [("first", {"b", "c"}), ("second", {"c", "d"})]


def test_best_use_makes_and_repairs_no_more_than_it_must():
    pieces = [Piece("sound", "drawhead"), Piece("cracked", "drawhead", cost=5)]
    routes = (Route("drawhead", "make", cost=20, limit=9), Route("lid", "make", cost=1, limit=9))

    use = best_use(wagons(*pieces, routes=routes))

    assert len(use.complete) == 3
    assert use.levels[3].value == (5 + 4 * 20) / 10
    assert use.levels[2].value == pytest.approx(1.8)


def test_best_use_is_the_same_in_any_order_of_the_facts():
    pieces = [Piece(str(n), "drawhead", came_off=chosen) for n, chosen in enumerate("ABC" * 2)]
    shop = wagons(*pieces, Piece("x", "lid", 2))
    shuffled = replace(
        shop, places=shop.places[::-1], pieces=shop.pieces[::-1], fits=shop.fits[::-1]
    )

    assert best_use(shuffled).assignments == best_use(shop).assignments


def test_best_use_reports_each_level_as_it_is_done():
    reported = []

    use = best_use(wagons(Piece("lot", "drawhead", quantity=5)), report=reported.append)

    assert tuple(reported) == use.levels


def test_best_use_out_of_time_gives_a_fair_plan_and_says_what_is_not_proven():
    shop = collection(one_component_scarce(20), seed=1)

    use = best_use(shop, seconds=0)

    level = use.levels[0]
    assert not level.is_proven
    assert use.sentence() == f"{level.value} complete, at most {level.bound}"
    assert 14 <= len(use.complete) == level.value <= 16 <= level.bound
    assert mates(shop, use.assignments)
    assert max(Counter(use.assignments.values()).values()) == 1


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"fits": (Fit("z", "lid", 1.0),)}, "a fit names piece 'z', which is not in hand"),
        ({"fits": (Fit("a", "roof", 1.0),)}, "a fit names place 'roof', which no vehicle has"),
        ({"fixed": {"99/D1": "a"}}, "a piece is fixed at '99/D1', which no vehicle has"),
        ({"pieces": (Piece("a", "lid"),) * 2}, "piece 'a' is listed twice"),
        (
            {
                "places": (
                    Place("1", "1", "lid", True, "", "s"),
                    Place("2", "2", "box", True, "", "s"),
                )
            },
            "specification 's' is for two components",
        ),
    ],
)
def test_best_use_refuses_facts_that_contradict_themselves(change, words):
    shop = replace(wagons(Piece("a", "lid")), **{"fits": (), **change})

    with pytest.raises(PlanningError, match=words):
        best_use(shop)


@st.composite
def shops(draw):
    """Draw a shop of up to three axles and up to eight pieces in two sizes."""
    seed = draw(st.integers(0, 10_000))
    chance = random.Random(seed)
    pieces = [
        Piece(f"p{n}", chance.choice(("axle", "brass", "brass")), chance.randint(1, 2))
        for n in range(draw(st.integers(1, 8)))
    ]
    sizes = {piece.key: chance.choice(("4x8", "5x9")) for piece in pieces}
    one = axle(*pieces, matings=(Mating.by_size("axle", "brass", sizes),))
    places = tuple(
        replace(place, key=f"{n}{place.key}", vehicle=f"v{n}")
        for n in range(draw(st.integers(1, 3)))
        for place in one.places
    )
    fits = tuple(replace(fit, probability=chance.choice((0.6, 0.8, 1.0))) for fit in one.fits)
    return replace(one, places=places, fits=fits)


def reached(shop: Shop) -> list[float]:
    """Return the values of the first three levels."""
    return [level.value for level in best_use(shop).levels[:3]]


@given(shops(), st.sampled_from(("4x8", "5x9")), st.sampled_from(("axle", "brass")))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_adding_a_piece_never_lowers_the_best_use(shop, size, component):
    sizes = {**shop.matings[0].size_of, "new": size}
    larger = replace(
        shop,
        pieces=(*shop.pieces, Piece("new", component)),
        fits=(*shop.fits, Fit("new", component, 0.7)),
        matings=(Mating.by_size("axle", "brass", sizes),),
    )

    assert reached(larger) >= reached(shop)


@given(shops(), st.randoms(use_true_random=False))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_relabeling_changes_nothing_that_the_best_use_reaches(shop, chance):
    keys = [piece.key for piece in shop.pieces]
    new = dict(zip(keys, chance.sample(range(100), len(keys)), strict=True))
    name = {key: f"other {number}" for key, number in new.items()}
    sizes = {name[key]: size for key, size in shop.matings[0].size_of.items()}
    relabeled = replace(
        shop,
        pieces=tuple(replace(piece, key=name[piece.key]) for piece in shop.pieces),
        fits=tuple(replace(fit, piece=name[fit.piece]) for fit in shop.fits),
        matings=(Mating.by_size("axle", "brass", sizes),),
    )

    assert reached(relabeled) == reached(shop)


@given(shops(), st.sampled_from(("v0", "v1", "v2")))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_every_plan_keeps_to_lots_fits_matings_and_what_is_held(shop, vehicle):
    first, *others = shop.pieces
    held = replace(shop, pieces=(replace(first, held_for=vehicle), *others))

    plan = best_use(held).assignments

    assert is_lawful(held, plan)
    assert mates(held, plan)


@given(shops())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_holding_a_piece_for_the_vehicle_that_it_serves_changes_nothing(shop):
    use = best_use(shop)
    of_place = {place.key: place.vehicle for place in shop.places}
    serves = {
        piece: {of_place[key] for key, p in use.assignments.items() if p == piece}
        for piece in use.assignments.values()
    }
    held = tuple(
        replace(piece, held_for=next(iter(serves[piece.key])))
        if len(serves.get(piece.key, ())) == 1
        else piece
        for piece in shop.pieces
    )

    assert reached(replace(shop, pieces=held)) == reached(shop)
