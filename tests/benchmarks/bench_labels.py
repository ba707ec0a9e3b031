"""Time a sheet of forty labels with their codes."""

import os
import statistics
import sys
import time
from random import Random

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
django.setup()

from catalog.printing.labels import Label, Printer, label_sheet  # noqa: E402
from catalog.reckoning.codes import new_tag_code  # noqa: E402
from catalog.reckoning.label_sheets import STOCKS  # noqa: E402

ROUNDS = 5
LIMIT_SECONDS = 2.0


def main():
    random = Random(1889)
    codes = [new_tag_code(random) for _ in range(40)]
    labels = [Label(code, f"https://catalog.example.org/t/{code}") for code in codes]
    seconds = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        label_sheet(labels, STOCKS[0], Printer())
        seconds.append(time.perf_counter() - start)
    median = statistics.median(seconds)
    print(f"40 labels: {median:.2f} s (limit {LIMIT_SECONDS:.0f} s)")
    return median > LIMIT_SECONDS


if __name__ == "__main__":
    sys.exit(main())
