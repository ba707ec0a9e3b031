"""Time the reckoning that pages wait for: fits by the hundred thousand, chains, dates."""

import statistics
import sys
import time

import numpy as np

from catalog.reckoning.chronology import Order, tighten
from catalog.reckoning.conformance import conformance_probabilities
from catalog.reckoning.edtf_dates import parse_date
from tests.reckoning.test_chronology import long_story

ROUNDS = 7


def fits():
    """Prepare 100,000 measurements against limits of their own."""
    random = np.random.default_rng(7)
    values, doubts = random.uniform(50, 150, 100_000), random.uniform(0.1, 1, 100_000)
    lowers = values + random.normal(0, 3, 100_000)
    return lambda: conformance_probabilities(values, doubts, lowers, lowers + 1.0)


def chain():
    """Prepare 500 events with some 1,500 orders between them."""
    events, orders = long_story(1)
    return lambda: tighten(events, orders)


def contradiction():
    """Prepare the same with one order that cannot hold."""
    events, orders = long_story(2)
    wrong = [*orders, Order("400", "100", 3)]
    return lambda: tighten(events, wrong)


def dates():
    """Prepare a thousand dates in words."""
    texts = [f"between about 14 June {year} and {year + 1}" for year in range(1000, 2000)]
    return lambda: [parse_date(text) for text in texts]


LIMITS = {
    "100,000 fits": (fits, 0.1),
    "500 events": (chain, 0.05),
    "500 events, one contradiction": (contradiction, 0.05),
    "1,000 dates in words": (dates, 1.0),
}


def median_seconds(action):
    seconds = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        action()
        seconds.append(time.perf_counter() - start)
    return statistics.median(seconds)


def main():
    missed = 0
    for name, (prepare, limit) in LIMITS.items():
        seconds = median_seconds(prepare())
        missed += seconds > limit
        print(f"{name:32} {seconds * 1000:8.1f} ms  (limit {limit * 1000:.0f} ms)")
    return missed


if __name__ == "__main__":
    sys.exit(main())
