"""Evidence: what it says a hypothesis expects."""

import pytest

from catalog.reckoning.identity import Hypothesis, MeasuredEvidence
from catalog.reckoning.limits import Limits
from catalog.reckoning.uncertainty import Measured


@pytest.mark.parametrize(
    ("limits", "basis"),
    [
        (Limits(None, 66.0), "66 mm or less"),
        (Limits(63.5, None), "63.5 mm or more"),
        (Limits(None, None), "any size"),
        (None, "any size"),
    ],
)
def test_open_limits_are_told_as_such(limits, basis):
    one = Hypothesis("a", "box", characteristics={"bore": limits})

    assert MeasuredEvidence("bore", Measured(64.1, 0.5)).basis(one) == basis
