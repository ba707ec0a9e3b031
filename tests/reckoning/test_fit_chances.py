"""How likely a part serves, from what is measured, tried and agreed."""

import pytest

from catalog.reckoning.conformance import Requirement, Trial, verdict
from catalog.reckoning.fit_chances import NO_LIMITS, Standing, chance_of
from catalog.reckoning.uncertainty import Measured

BORE = Requirement("bore", lower=63.0, upper=64.0)
DEPTH = Requirement("depth", lower=100.0, upper=110.0)


def test_measured_part_has_the_probability_of_its_fit():
    middle = verdict([(BORE, Measured(63.5, 0.5))])

    # Within one standard uncertainty of the mean: 68.27 % (JCGM 100, table G.1).
    assert chance_of(middle, Standing.AGREED) == pytest.approx(0.6827, abs=5e-5)


def test_each_missing_measurement_halves_it():
    both = verdict([(BORE, None), (DEPTH, None)])

    assert chance_of(both, Standing.AGREED) == 0.25


def test_less_is_agreed_less_is_trusted():
    found = verdict([])

    chances = [chance_of(found, standing) for standing in Standing]

    assert chances[0] == NO_LIMITS
    assert chances == sorted(chances, reverse=True)


@pytest.mark.parametrize(
    ("trial", "chance"), [(Trial.WENT, 1), (Trial.WENT_WITH_WORK, 1), (Trial.DID_NOT_GO, 0)]
)
def test_trial_settles_it(trial, chance):
    assert chance_of(verdict([(BORE, None)], trial=trial), Standing.DISPUTED) == chance
