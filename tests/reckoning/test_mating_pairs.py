"""Pairs that would not mate, all against all as one against one."""

import pytest

from catalog.reckoning.conformance import Fit, Requirement, clearance, verdict
from catalog.reckoning.mating_pairs import clashing
from catalog.reckoning.uncertainty import Measured

BORES = [Measured(63.0 + step / 3, 0.02 + step / 20) for step in range(12)]
JOURNALS = [Measured(62.5 + step / 4, 0.05) for step in range(10)]


@pytest.mark.parametrize(("least", "greatest"), [(0.1, 1.0), (0.0, None), (None, 0.8), (0.1, 0.3)])
def test_pairs_clash_exactly_where_a_single_verdict_says_misfit(least, greatest):
    rule = Requirement("clearance", lower=least, upper=greatest)

    singly = [
        (a, b)
        for a, bore in enumerate(BORES)
        for b, journal in enumerate(JOURNALS)
        if verdict([(rule, clearance(journal, bore))]).fit == Fit.MISFIT
    ]

    assert clashing(BORES, JOURNALS, least=least, greatest=greatest) == singly
    assert 0 < len(singly) < len(BORES) * len(JOURNALS)


def test_nothing_clashes_with_nothing():
    assert clashing([], JOURNALS, least=0.1, greatest=1.0) == []
