"""Measure planning from the record: 20 vehicles of 40 positions over 1,000 parts."""

import sys

from tests.benchmarks.running import run

if __name__ == "__main__":
    sys.exit(run("plan_speeds", "planning"))
