"""Time the weighing of 300 hypotheses with the next measurement, kindly and unkindly laid out."""

import statistics
import sys
import time

import numpy as np

from catalog.reckoning.identity import (
    Hypothesis,
    MeasuredEvidence,
    Tool,
    next_measurement,
    weigh,
)
from catalog.reckoning.limits import Limits
from catalog.reckoning.uncertainty import Measured

HYPOTHESES = 300
ROUNDS = 7
LIMIT_SECONDS = 0.1


def collection(*, features, sizes_mm):
    """Draw hypotheses with five features each, with limits of their own for nearly all."""
    random = np.random.default_rng(1889)
    names = [f"feature {number}" for number in range(features)]
    drawn = []
    for number in range(HYPOTHESES):
        chosen = [names[place] for place in random.permutation(features)[:5]]
        least = np.exp(random.uniform(*np.log(sizes_mm), size=5))
        widths = random.uniform(0.2, 4.0, size=5)
        limits = [
            Limits(low, low + width) if random.random() < 0.9 else None
            for low, width in zip(least.tolist(), widths.tolist(), strict=True)
        ]
        known = dict(zip(chosen, limits, strict=True))
        drawn.append(
            Hypothesis(f"h{number}", f"piece {number}", prior_weight=1.0, characteristics=known)
        )
    return drawn, {name: Tool("caliper", 0.05) for name in names}


def median_seconds(hypotheses, evidence, tools):
    seconds = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        weigh(hypotheses, evidence)
        next_measurement(hypotheses, evidence, tools=tools)
        seconds.append(time.perf_counter() - start)
    return statistics.median(seconds)


def main():
    layouts = {
        "25 features, sizes 30 to 400 mm": {"features": 25, "sizes_mm": (30.0, 400.0)},
        "5 features, sizes 30 to 400 mm": {"features": 5, "sizes_mm": (30.0, 400.0)},
        "5 features, all between 60 and 70 mm": {"features": 5, "sizes_mm": (60.0, 70.0)},
    }
    measured = [MeasuredEvidence("feature 0", Measured(64.1, 0.5))]
    slowest = 0.0
    for words, layout in layouts.items():
        hypotheses, tools = collection(**layout)
        for told, evidence in (("nothing measured", []), ("one measured", measured)):
            seconds = median_seconds(hypotheses, evidence, tools)
            slowest = max(slowest, seconds)
            sys.stdout.write(f"{words}, {told}: {seconds * 1e3:.0f} ms\n")
    sys.stdout.write(f"slowest {slowest * 1e3:.0f} ms, limit {LIMIT_SECONDS * 1e3:.0f} ms\n")
    return 0 if slowest <= LIMIT_SECONDS else 1


if __name__ == "__main__":
    sys.exit(main())
