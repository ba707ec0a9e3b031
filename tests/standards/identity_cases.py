"""Drawn hypotheses and plain densities shared by the checks of identity."""

from hypothesis import strategies as st
from scipy import stats

from catalog.reckoning.identity import Hypothesis, MeasuredEvidence
from catalog.reckoning.limits import Limits
from catalog.reckoning.uncertainty import Measured

# Next to nothing for something else, where a closed form has no place for it.
TINY = 1e-13
sizes = st.floats(10.0, 1000.0)
widths = st.floats(0.0, 20.0)
tolerances = st.floats(0.01, 5.0)
boxes = st.lists(st.tuples(sizes, widths, st.floats(0.1, 10.0)), min_size=1, max_size=5)


def hypotheses(*limits, characteristic="bore"):
    return [
        Hypothesis(f"h{i}", f"box {i}", prior_weight=weight, characteristics={characteristic: one})
        for i, (one, weight) in enumerate(limits)
    ]


def from_drawn(drawn):
    return hypotheses(*((Limits(low, low + width), weight) for low, width, weight in drawn))


def probabilities(ranking):
    return {opinion.hypothesis.key: opinion.probability for opinion in ranking.opinions}


def bore(value, uncertainty):
    return MeasuredEvidence("bore", Measured(value, uncertainty))


def reading_density(low, high, uncertainty):
    """Return the density of a reading by scipy's normal distribution."""

    def density(reading):
        inside = stats.norm.cdf([low, high], reading, uncertainty)
        return (inside[1] - inside[0]) / (high - low)

    return density
