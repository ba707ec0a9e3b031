"""Measure planning on generated collections, against the plain formulation in the same run.

Run as ``python -m tests.benchmarks.bench_planning [VEHICLES SEEDS]``; without arguments 20
vehicles and 100 are planned from ten seeds. The plain formulation gets the same
solver with the same settings, and is given up after a while.
"""

import resource
import sys
import time
from statistics import median

import numpy as np

from catalog.reckoning.assignment import best_use, one_more, shortest_shopping_list
from catalog.reckoning.planning.programs import Program
from tests.benchmarks.plain_formulation import PlainFormulation
from tests.benchmarks.planning_collections import (
    collection,
    compatibility_scarce,
    one_component_scarce,
    with_making,
)

KINDS = {"A": one_component_scarce, "B": compatibility_scarce}

# Seconds for levels 1 and 2 together, by the number of vehicles, and those allowed in all: the
# third level has ten seconds more.
LIMITS = {20: (2, 12), 100: (10, 20), 500: (60, 120)}
LEVEL_3_GAP = 0.005
# The solver looks at its clock now and then only.
LATE_SECONDS = 1
ONE_MORE_LIMIT = 5
PLAIN_LIMIT = 20


def seconds_of(action):
    """Return how long an action took, and its answer."""
    started = time.perf_counter()
    answer = action()
    return time.perf_counter() - started, answer


def plan(kind, vehicles, seed):
    """Return seconds to levels 1 and 2, whether both are proven, and the third level."""
    shop = collection(KINDS[kind](vehicles), seed)
    limit, allowed = LIMITS[vehicles]
    _, use = seconds_of(lambda: best_use(shop, seconds=allowed))
    first, second, third, _ = use.levels
    spent = first.seconds + second.seconds
    is_in_time = first.is_proven and second.is_proven and spent < limit
    print(
        f"{kind} {vehicles:4} vehicles, seed {seed:2}: {first.sentence()}, {second.sentence()} "
        f"in {spent:.2f} s; level 3 {third.value:.1f}, gap {third.gap:.3%} in {third.seconds:.1f} s"
    )
    return spent, is_in_time, third


def kind_in_time(kind, vehicles, seeds):
    """Plan collections of one kind, and say whether nine in ten keep the limits."""
    runs = [plan(kind, vehicles, seed) for seed in range(1, seeds + 1)]
    proven = sum(is_in_time for _, is_in_time, _ in runs)
    # Only collections that a page waits for have a limit on the third level.
    allowed = LIMITS[vehicles][1] + LATE_SECONDS
    sound = [
        vehicles > 100 or (third.gap <= LEVEL_3_GAP and spent + third.seconds <= allowed)
        for spent, _, third in runs
    ]
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(
        f"{kind} {vehicles:4} vehicles: levels 1 and 2 in {median(run[0] for run in runs):.2f} s, "
        f"{proven} of {seeds} in time; {sum(sound)} sound enough; {memory} MiB at most"
    )
    return proven >= 0.9 * seeds and all(sound)


def one_more_in_time(kind):
    """Solve again for every component, and say whether that keeps the limit."""
    shop = collection(KINDS[kind](20), 1)
    again, _ = seconds_of(lambda: one_more(shop))
    shopping, _ = seconds_of(lambda: shortest_shopping_list(shop))
    print(f"{kind}   20 vehicles: one more of each {again:.2f} s, shopping list {shopping:.2f} s")
    return again < ONE_MORE_LIMIT


def making_in_time(kind, seeds=3):
    """Plan with pieces that can be made too, and say whether levels 1 and 2 keep their limit."""
    limit, allowed = LIMITS[20]
    kept = []
    for seed in range(1, seeds + 1):
        shop = collection(KINDS[kind](20), seed)
        for words, offered in (("without", shop), ("with", with_making(shop))):
            before = time.process_time()
            use = best_use(offered, seconds=allowed)
            spent = sum(level.seconds for level in use.levels[:2])
            told = ", ".join(f"{one.sentence()} in {one.seconds:.2f} s" for one in use.levels)
            work = time.process_time() - before
            print(f"{kind}   20 vehicles {words} making: {told}; {work:.1f} s of processor")
            kept.append(spent < limit and all(one.is_proven for one in use.levels[:2]))
    return all(kept)


def plain_seconds(shop):
    """Return how long the plain formulation takes for levels 1 and 2, or nothing when too long."""
    started = time.perf_counter()
    plain, program = PlainFormulation(shop), Program()
    for _ in range(plain.width):
        program.column(1, is_whole=True)
    matrix, lowers, uppers = plain.matrix()
    for row, (start, end) in enumerate(zip(matrix.indptr, matrix.indptr[1:], strict=False)):
        columns = (int(column) for column in matrix.indices[start:end])
        terms = dict(zip(columns, matrix.data[start:end], strict=True))
        program.row(terms, lowers[row], uppers[row])
    for terms in plain.sums()[:2]:
        left = PLAIN_LIMIT - (time.perf_counter() - started)
        solution = program.maximize(terms, seconds=left)
        if not solution.is_proven:
            return None
        program.row(terms, lower=np.round(solution.value))
    return time.perf_counter() - started


def compare(kind, vehicles):
    """Print how many times longer the plain formulation takes for levels 1 and 2."""
    shop = collection(KINDS[kind](vehicles), 1)
    use = best_use(shop, seconds=PLAIN_LIMIT)
    spent = sum(level.seconds for level in use.levels[:2])
    plain = plain_seconds(shop)
    ratio = f"over {PLAIN_LIMIT / spent:.0f}" if plain is None else f"{plain / spent:.0f}"
    print(f"{kind} {vehicles:4} vehicles: the plain formulation takes {ratio} times as long")


def main(arguments):
    sizes = [(int(arguments[0]), int(arguments[1]))] if arguments else [(20, 10), (100, 10)]
    kept = [kind_in_time(kind, *size) for size in sizes for kind in KINDS]
    if not arguments:
        kept += [one_more_in_time(kind) for kind in KINDS]
        kept += [making_in_time(kind) for kind in KINDS]
        for kind, vehicles in (("A", 2), ("A", 3), ("B", 3), ("B", 20)):
            compare(kind, vehicles)
    return kept.count(False)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
