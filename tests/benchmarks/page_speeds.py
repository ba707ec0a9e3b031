"""Ask for pages again and again, each in turn, and hold their times against their limits."""

import os
import time
from dataclasses import dataclass, field
from math import inf
from statistics import median
from typing import Any

from django.db import connection, transaction
from django.db.models import QuerySet
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalog.models import Accession, Component, Location, Member, Part, Vehicle
from catalog.operations.captures import Capture, take_in
from tests.benchmarks.big_collection import prepare

REQUESTS = 50
# So many records of each kind are asked for in turn, and all of them once before it counts.
RECORDS = 10
WARMING = RECORDS
# A list may take this share of the time that the admin takes for the same.
SHARE_OF_ADMIN = 0.25
# A record may take so many times as long as a page with nothing on it.
TIMES_EMPTY = 8
# Taking in a piece without a photo may take so long.
CAPTURE_MS = 15
DEPTHS = {"plain": (1, 1000, 2000), "component": (1, 6), "status": (1, 400), "location": (1, 5)}


@dataclass(frozen=True, slots=True)
class Spent:
    """What one request took: seconds on the clock, and those in which this process worked.

    On a machine that does nothing else the two are the same.
    """

    seconds: float
    work: float


@dataclass
class Page:
    """A page of the site, of one or many records in turn, and what it is held against."""

    name: str
    addresses: list[str]
    against: str
    limit: float
    spent: list[Spent] = field(default_factory=list)
    against_spent: list[Spent] = field(default_factory=list)
    queries: set[int] = field(default_factory=set)

    @property
    def ratio(self) -> float:
        return _median(self.spent, "seconds") / _median(self.against_spent, "seconds")

    @property
    def ratio_of_work(self) -> float:
        return _median(self.spent, "work") / _median(self.against_spent, "work")

    @property
    def holds(self) -> bool:
        """Say whether the page keeps its limit, with the same queries for every record."""
        return self.limit == inf or (self.ratio < self.limit and len(self.queries) == 1)

    def line(self) -> str:
        queries = " or ".join(map(str, sorted(self.queries)))
        ours, theirs = (1000 * _median(one, "seconds") for one in (self.spent, self.against_spent))
        ratios = f"{self.ratio:5.2f} (of work {self.ratio_of_work:.2f})"
        verdict = "" if self.holds else "  TOO SLOW, OR QUERIES DIFFER"
        limit = "no limit" if self.limit == inf else f"limit {self.limit:g}"
        return f"{self.name:38}{ours:6.1f} ms against {theirs:6.1f} ms: {ratios}, {limit}, {queries} queries{verdict}"


def _median(spent: list[Spent], what: str) -> float:
    return float(median(getattr(one, what) for one in spent))


def lists() -> list[Page]:
    """Return pages of the list of parts, each with the admin's page of the same parts."""
    component = Component.objects.get(name="hinge 3")
    location = Location.objects.get(name="Shelf 7")
    chosen = {
        "plain": ("", ""),
        "component": (f"component={component.pk}", f"component__id__exact={component.pk}"),
        "status": ("standing=agreed", "identification_status__exact=agreed"),
        "location": (f"location={location.pk}", f"location__id__exact={location.pk}"),
        "word of many": ("words=painted", "q=painted"),
        "two words": ("words=painted+bracket", "q=painted+bracket"),
        "beginning of a number": ("words=2026.4.1", "q=2026.4.1"),
        "word and status": (
            "words=painted&standing=agreed",
            "q=painted&identification_status__exact=agreed",
        ),
    }
    return [
        _list(f"parts, {name}, page {page}", *queries, page)
        for name, queries in chosen.items()
        for page in DEPTHS.get(name, (1,))
    ]


def _list(name: str, ours: str, theirs: str, page: int) -> Page:
    return Page(
        name,
        [f"{reverse('part-list')}?{ours}&page={page}"],
        f"{reverse('admin:catalog_part_changelist')}?{theirs}&p={page}",
        SHARE_OF_ADMIN,
    )


def records() -> list[Page]:
    """Return pages of records, in turn one of several, against the empty page."""
    vehicles = Vehicle.objects.order_by("pk")
    in_use = Part.objects.order_by("pk").filter(fittings__isnull=False)
    loose = Part.objects.order_by("pk").filter(component__isnull=False, fittings=None)
    limited = {
        "a part that is known": _each("part-detail", loose.filter(identification_status="agreed")),
        "a part that is proposed": _each(
            "part-detail", loose.filter(identification_status="proposed")
        ),
        "a part that is fitted": _each(
            "part-detail", in_use.filter(identification_status="agreed")
        ),
        "a vehicle": _each("vehicle-detail", vehicles),
        "needs of a vehicle": _each("vehicle-needs", vehicles),
    }
    ever_another = REQUESTS + WARMING
    shown = {
        "a vehicle, reckoned anew": _each("vehicle-detail", vehicles[100:], ever_another),
        "needs of a vehicle, reckoned anew": _each("vehicle-needs", vehicles[200:], ever_another),
        "home": [reverse("home")],
        "needs of all vehicles": [reverse("needs")],
    }
    return [
        *(Page(name, found, reverse("empty"), TIMES_EMPTY) for name, found in limited.items()),
        *(Page(name, found, reverse("empty"), inf) for name, found in shown.items()),
    ]


def _each(name: str, rows: QuerySet[Any], count: int = RECORDS) -> list[str]:
    return [reverse(name, args=[getattr(row, "slug", row.pk)]) for row in rows[:count]]


def measure(pages: list[Page], client: Client, admin: Client) -> None:
    """Ask for all pages in turn, so that what else the machine does falls on each alike."""
    for turn in range(-WARMING, REQUESTS):
        for page in pages:
            other = admin if page.against.startswith("/admin/") else client
            address = page.addresses[turn % len(page.addresses)]
            ours, theirs = _ask(client, address), _ask(other, page.against)
            if turn >= 0:
                page.spent.append(ours)
                page.against_spent.append(theirs)
    for page in pages:
        for address in page.addresses[:5] * 2:
            with CaptureQueriesContext(connection) as queries:
                client.get(address)
            page.queries.add(len(queries))


def _ask(client: Client, address: str) -> Spent:
    started, idle = time.perf_counter(), time.process_time()
    response = client.get(address)
    spent = Spent(time.perf_counter() - started, time.process_time() - idle)
    if response.status_code != 200:
        raise RuntimeError(f"{address} answers {response.status_code}")
    return spent


def captures(by: Member, component: Component | None = None) -> float:
    """Return how many milliseconds it takes to take a piece in; nothing is kept."""
    told: Capture = {
        "accession": Accession.objects.order_by("pk")[7],
        "location": Location.objects.order_by("pk")[7],
        "component": component,
    }
    seconds = []
    with transaction.atomic():
        for turn in range(REQUESTS):
            told["description"] = f"casting {turn}"
            started = time.perf_counter()
            take_in(by=by, **told)
            seconds.append(time.perf_counter() - started)
        transaction.set_rollback(True)
    return 1000 * median(seconds)


def main() -> int:
    client, admin = Client(), Client()
    member = prepare()
    client.force_login(member)
    powers = {"is_staff": True, "is_superuser": True}
    admin.force_login(Member.objects.update_or_create(username="admin", defaults=powers)[0])
    pages = [*lists(), *records()]
    measure(pages, client, admin)
    print(f"{REQUESTS} requests each, median; load {os.getloadavg()[0]:.1f}")
    for page in pages:
        print(page.line())
    taken_in = captures(member)
    print(f"{'taking in a piece':38}{taken_in:6.1f} ms, limit {CAPTURE_MS} ms")
    guessed = captures(member, Component.objects.get(name="hinge 3"))
    print(f"{'taking in a piece with a guess':38}{guessed:6.1f} ms, no limit")
    return sum(not page.holds for page in pages) + (taken_in > CAPTURE_MS)
