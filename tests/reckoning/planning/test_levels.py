"""The third level of a plan that is too large to be solved at once."""

import pytest

from catalog.reckoning.planning import levels
from catalog.reckoning.planning.levels import Climb
from catalog.reckoning.planning.turns import turns_of
from tests.benchmarks.planning_collections import collection, compatibility_scarce
from tests.reckoning.planning_samples import is_lawful, mates


@pytest.fixture
def shop():
    return collection(compatibility_scarce(6), 1)


def climb_to_sound(shop):
    """Climb two levels, and return what was sound then, the climb, and its third level."""
    climb = Climb(shop, seconds=60)
    climb.complete_vehicles()
    climb.fill_places()
    return climb.measures.sound(climb.plan) / levels.SOUND, climb, climb.prefer_sound()


def test_dealing_in_turns_comes_close_to_the_best_without_solving_the_whole(shop, monkeypatch):
    _, _, best = climb_to_sound(shop)
    monkeypatch.setattr(levels, "FEW", 2)
    monkeypatch.setattr(levels, "SETTLED", 0.0)
    monkeypatch.setattr(levels, "IMPROVED", 1.0)

    before, climb, found = climb_to_sound(shop)

    assert best.is_proven
    assert before < 0.95 * found.value
    assert 0.995 * best.value < found.value <= best.value
    assert is_lawful(shop, climb.plan)
    assert mates(shop, climb.plan)


def test_dealing_in_turns_keeps_what_the_levels_before_reached(shop, monkeypatch):
    monkeypatch.setattr(levels, "FEW", 1)
    monkeypatch.setattr(levels, "SETTLED", 0.0)
    monkeypatch.setattr(levels, "IMPROVED", 1.0)
    climb = Climb(shop, seconds=60)
    complete, filled = climb.complete_vehicles(), climb.fill_places()

    climb.prefer_sound()

    assert len(climb.measures.complete(climb.plan)) == complete.value
    assert climb.measures.essential_filled(climb.plan) == filled.value


def test_each_turn_takes_every_vehicle_once_and_mixes_them_anew():
    vehicles = [str(number) for number in range(50)]

    first, again, second = (list(turns_of(vehicles, 20, turn)) for turn in (0, 0, 1))

    assert [len(some) for some in first] == [17, 17, 16]
    assert sorted(one for some in first for one in some) == sorted(vehicles)
    assert first == again != second
