"""Plan the best use of the parts of a collection, and hold time and proof against their limits."""

import os
import time
from statistics import median

from catalog.queries.plans import plan_best_use
from tests.benchmarks.big_collection import prepare

RUNS = 5
SECONDS = 2


def main() -> int:
    prepare()
    runs = [_plan() for _ in range(RUNS)]
    spent, is_proven = median(run[0] for run in runs), all(run[1] for run in runs)
    verdict = "in time" if spent < SECONDS and is_proven else "TOO SLOW, OR NOT PROVEN"
    print(f"median {spent:.2f} s, limit {SECONDS} s, load {os.getloadavg()[0]:.1f}: {verdict}")
    return 0 if spent < SECONDS and is_proven else 1


def _plan() -> tuple[float, bool]:
    """Return how long a plan took, and whether vehicles and positions are proven with no gap."""
    started = time.perf_counter()
    plan = plan_best_use()
    spent = time.perf_counter() - started
    told = "; ".join(f"{level.sentence()}, gap {level.gap:.3%}" for level in plan.levels)
    print(f"{len(plan.vehicles)} vehicles in {spent:.2f} s: {told}")
    return spent, all(level.is_proven and level.gap == 0 for level in plan.levels[:2])
