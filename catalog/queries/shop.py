"""The shop today: what waits for a person, and how far each vehicle is."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import timedelta
from urllib.parse import urlencode

from django.db.models import Count, Q
from django.urls import reverse
from django.utils import timezone

from catalog.models import Accession, Answer, Fitting, Member, Part, Plan, Vehicle
from catalog.queries.accessions import waiting_lines
from catalog.queries.loose_parts import IS_FITTED
from catalog.queries.needs import needs_of_shop
from catalog.queries.one_more import Shopping
from catalog.queries.remembered import remembered
from catalog.queries.shop_plans import PLANNED_AT_ONCE, plan_of_shop
from catalog.queries.strips import VehicleStrip, strips_of

# A page that is read on a phone in the shed; the other vehicles are one tap away.
MOST_STRIPS = 12
PLAN_IS_NEWS = timedelta(days=3)


@dataclass(frozen=True, slots=True)
class Waiting:
    """Something that waits for a person: how much of it, in words, and where to see to it."""

    count: int
    words: str
    url: str
    icon: str


@dataclass(frozen=True, slots=True)
class Shop:
    """What the home page shows to a member."""

    waiting: tuple[Waiting, ...]
    strips: tuple[VehicleStrip, ...]
    vehicle_count: int
    part_count: int
    next_step: Shopping | None


def shop_today(member: Member) -> Shop:
    """Gather the page in a fixed number of queries; only a steward is told of answers to see to."""
    counts = remembered("parts that wait", (Part, Fitting), _part_counts)
    vehicles = Vehicle.objects.for_list()
    counted = list(vehicles[: PLANNED_AT_ONCE + 1])
    shown = counted[:MOST_STRIPS]
    count = len(counted) if len(counted) <= PLANNED_AT_ONCE else vehicles.count()
    plan = plan_of_shop(counted)
    return Shop(
        waiting=tuple(waiting for waiting in _waiting(counts, member) if waiting.count),
        strips=tuple(strips_of(shown, needs_of_shop(shown), plan.vehicles)),
        vehicle_count=count,
        part_count=counts["all"],
        next_step=plan.next_step,
    )


def _part_counts() -> dict[str, int]:
    standing = Part.Standing
    nowhere = Q(location=None, inside=None) & ~Q(IS_FITTED)
    return Part.objects.kept().aggregate(
        all=Count("pk"),
        untagged=Count("pk", filter=Q(tag=None) & ~Q(IS_FITTED)),
        unidentified=Count("pk", filter=Q(identification_status=standing.UNIDENTIFIED)),
        proposed=Count("pk", filter=Q(identification_status=standing.PROPOSED)),
        disputed=Count("pk", filter=Q(identification_status=standing.DISPUTED)),
        nowhere=Count("pk", filter=nowhere),
    )


def _waiting(counts: Mapping[str, int], member: Member) -> Iterable[Waiting]:
    standing = Part.Standing
    yield _of(
        counts["disputed"], "identification disputed", "caution", _parts(standing=standing.DISPUTED)
    )
    yield _of(
        counts["proposed"],
        "identification awaiting a second person",
        "check",
        _parts(standing=standing.PROPOSED),
    )
    yield _of(
        counts["unidentified"],
        "part that nobody has identified",
        "part",
        _parts(standing=standing.UNIDENTIFIED),
    )
    yield _of(counts["untagged"], "part without a tag", "tag", _parts(untagged="1"))
    yield _of(counts["nowhere"], "part without a location", "location", _parts(placeless="1"))
    yield from _waiting_elsewhere()
    if member.is_steward:
        answers = Answer.objects.waiting().count()
        address = reverse("answer-list")
        yield _of(answers, "answer to a want, not acknowledged", "want", address)


def _waiting_elsewhere() -> Iterable[Waiting]:
    trials = Fitting.objects.filter(state=Fitting.State.TRIAL).count()
    yield _of(trials, "part on trial, to be decided", "fit", reverse("needs"))
    yield from _plans_ready()
    accessions = reverse("accession-list")
    lines = len(waiting_lines())
    yield _of(lines, "line of a donor at odds with what came", "accession", accessions)
    deeds = Accession.objects.kept().filter(title_status=Accession.Title.UNSIGNED).count()
    unsigned = urlencode({"title_status": Accession.Title.UNSIGNED.value})
    yield _of(deeds, "deed not signed yet", "source", f"{accessions}?{unsigned}")


def _plans_ready() -> Iterable[Waiting]:
    """Tell of plans that were worked out lately, so that whoever left their page finds them."""
    since = timezone.now() - PLAN_IS_NEWS
    ready = list(
        Plan.objects.filter(state=Plan.State.READY, applied_at=None, finished_at__gt=since)
    )
    if len(ready) == 1:
        yield Waiting(1, f"plan ready: “{ready[0]}”", ready[0].get_absolute_url(), "fit")
    elif ready:
        yield Waiting(len(ready), "plans ready", reverse("plan-list"), "fit")


def _of(count: int, words: str, icon: str, url: str) -> Waiting:
    """Put the noun that ``words`` begin with in the plural where there are several."""
    noun, _, rest = words.partition(" ")
    return Waiting(count, words if count == 1 else f"{noun}s {rest}", url, icon)


def _parts(**chosen: str) -> str:
    return f"{reverse('part-list')}?{urlencode(chosen)}"
