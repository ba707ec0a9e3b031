"""Test for how many vehicles a supply is enough."""

from fractions import Fraction

from catalog.reckoning.assignment import enough_for


def test_enough_for_counts_whole_vehicles_and_shares():
    enough = enough_for({"casting": 3, "spring": 8}, {"casting": Fraction(9, 2), "spring": 16})

    assert (enough.complete, enough.in_parts) == (1, Fraction(3, 2))
    assert enough.shares == {"casting": Fraction(3, 2), "spring": Fraction(2)}
    assert enough.limiting == ("casting",)


def test_enough_for_a_component_of_which_there_is_none():
    enough = enough_for({"casting": 3, "spring": 8}, {"spring": 16})

    assert enough.sentence() == "enough for 0 complete, and 0 in parts"
    assert enough.limiting == ("casting",)
