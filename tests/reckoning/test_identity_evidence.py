"""Evidence: what it says a hypothesis expects."""

import pytest

from catalog.reckoning.identity import Hypothesis, MeasuredEvidence
from catalog.reckoning.limits import Limits
from catalog.reckoning.uncertainty import Measured


@pytest.mark.parametrize(
    ("limits", "basis"),
    [
        (Limits(None, 66.0), "at most 66 mm"),
        (Limits(63.5, None), "at least 63.5 mm"),
        (Limits(None, None), "any size"),
        (None, "any size"),
    ],
)
def test_open_limits_are_told_as_such(limits, basis):
    one = Hypothesis("a", "box", characteristics={"bore": limits})

    assert MeasuredEvidence("bore", Measured(64.1, 0.5)).basis(one) == basis
