"""Ask again and again for what parts fit, and tell what that takes beyond an empty page."""

import sys
import time
from statistics import median

from django.test import Client
from django.urls import reverse

from catalog.models import Part
from tests.benchmarks.fit_collection import KINDS, make

REQUESTS, WARMING = 8, 2


def measure(parts: int, positions: int) -> float:
    """Return the slowest kind's median seconds beyond the empty page, and tell each."""
    client = Client()
    client.force_login(make(parts, positions))
    empty = _median(client, "/empty/")
    slowest = 0.0
    for name in KINDS[:3]:
        pk = Part.objects.filter(component__name=name).order_by("pk")[parts // 10].pk
        for sheet in ("part-fits", "part-identity"):
            beyond = _median(client, reverse(sheet, args=[pk])) - empty
            if sheet == "part-fits":
                slowest = max(slowest, beyond)
            sys.stdout.write(f"{parts:7} parts, {sheet:13} {name:14} {1e3 * beyond:6.1f} ms\n")
    return slowest


def _median(client: Client, address: str) -> float:
    seconds = []
    for turn in range(-WARMING, REQUESTS):
        # SQLite works in this very process, so the processor's time is the server's time, and
        # what else the machine does counts for nothing.
        started = time.process_time()
        response = client.get(address)
        spent = time.process_time() - started
        if response.status_code != 200:
            raise RuntimeError(f"{address} answers {response.status_code}")
        if turn >= 0:
            seconds.append(spent)
    return median(seconds)
