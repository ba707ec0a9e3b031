"""Measure pages on a collection of 100,000 parts, against the stock admin and an empty page."""

import sys

from tests.benchmarks.running import run

if __name__ == "__main__":
    sys.exit(run("page_speeds", "large"))
