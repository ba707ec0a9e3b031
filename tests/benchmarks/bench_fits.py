"""Measure what a part fits among 100,000 measured parts and 20,000 open positions."""

import os
import subprocess
import sys
from importlib import import_module

import django

LARGE, SMALL = (100_000, 20_000), (10_000, 2_000)
LIMIT_SECONDS = 0.15


def one_size(parts: int, positions: int) -> float:
    """Measure one collection in this process."""
    os.environ["COLLECTION"] = f"fits-{parts}"
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.benchmarks.admin_settings")
    django.setup()
    # What imports models can be imported only now.
    return float(import_module("tests.benchmarks.fit_speeds").measure(parts, positions))


def in_own_process(parts: int, positions: int) -> float:
    command = [sys.executable, "-m", "tests.benchmarks.bench_fits", str(parts), str(positions)]
    # The command is this very program.
    told = subprocess.run(  # noqa: S603
        command, capture_output=True, text=True, check=True
    ).stdout
    sys.stdout.write(told)
    return float(told.split()[-2])


def main(arguments: list[str]) -> int:
    if arguments:
        seconds = one_size(*map(int, arguments))
        sys.stdout.write(f"slowest {seconds:.4f} s\n")
        return 0
    small, large = in_own_process(*SMALL), in_own_process(*LARGE)
    sys.stdout.write(
        f"limit {LIMIT_SECONDS:g} s; ten times the collection takes {large / small:.1f} times\n"
    )
    return 0 if large < LIMIT_SECONDS and large / small < 10 else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
