"""What would settle a reading that lies near its limits."""

import math

import pytest

from catalog.reckoning.conformance import Fit, Requirement, verdict
from catalog.reckoning.instruments import INSTRUMENTS
from catalog.reckoning.near_limits import what_would_settle
from catalog.reckoning.uncertainty import Measured

RULE, CALIPER, MICROMETER = (
    INSTRUMENTS[code] for code in ("rule-64", "vernier-caliper", "micrometer")
)


@pytest.mark.parametrize(
    ("value", "limits", "tool"),
    [
        (94.5, {"upper": 95.0}, RULE),
        (94.9, {"upper": 95.0}, CALIPER),
        (95.1, {"upper": 95.0}, CALIPER),
        (94.96, {"upper": 95.0}, MICROMETER),
        (94.91, {"lower": 90.0, "upper": 95.0}, CALIPER),
        (90.05, {"lower": 90.0, "upper": 95.0}, MICROMETER),
    ],
)
def test_the_named_tool_settles_a_reading_that_reads_the_same(value, limits, tool):
    asked = Requirement("diameter", **limits)
    words = what_would_settle(Measured(value, 0.4), *asked.as_worn)

    settled = verdict([(asked, Measured(value, tool.uncertainty_mm))])

    assert words.endswith(f"would settle it: {tool.name}.")
    assert settled.fit in (Fit.FITS, Fit.MISFIT)
    # So does a clearance of two readings with it.
    both = verdict([(asked, Measured(value, tool.uncertainty_mm * math.sqrt(2)))])
    assert both.fit == settled.fit


def test_on_the_limit_itself_only_a_trial_settles():
    line = verdict([(Requirement("rim", worn_lower=25.4), Measured(25.4, 0.03))]).characteristics[0]

    assert line.note == (
        "It reads so near to its limit that no instrument here would settle it. Try it in its "
        "place: a trial outranks arithmetic."
    )


def test_limits_of_wear_alone_are_not_said_to_fail_as_new():
    answer = verdict([(Requirement("rim", worn_lower=25.4), Measured(30.0, 0.1))])

    assert answer.sentence == (
        "Fits as worn: rim is within the limits of wear; none as new are recorded."
    )
