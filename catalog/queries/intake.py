"""How many pieces were taken in from month to month, of all accessions and of each."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Min, QuerySet, Sum, Value
from django.utils import timezone

from catalog.models import Accession, Part
from catalog.queries.remembered import remembered
from catalog.queries.spans import midnight
from catalog.reckoning.months import month_after, month_of, months_between
from catalog.reckoning.plurals import counted

MOST_MONTHS = 24
MOST_ACCESSIONS = 20
# By the first day of the month, and the key of the accession, if it came in one.
Pieces = Mapping[tuple[dt.date, int | None], int]


@dataclass(frozen=True, slots=True)
class Month:
    """A month, and how many pieces were taken in during it."""

    first: dt.date
    pieces: int


@dataclass(frozen=True, slots=True)
class Intake:
    """The months of one accession or of all, the ones without anything too."""

    title: str
    months: tuple[Month, ...]

    @property
    def total(self) -> int:
        return sum(month.pieces for month in self.months)

    @property
    def most(self) -> int:
        return max((month.pieces for month in self.months), default=0)

    @property
    def words(self) -> str:
        """Say in one sentence what the bars show."""
        if not self.total:
            return "Nothing was taken in during these months"
        first, last = self.months[0].first, self.months[-1].first
        best = max(self.months, key=lambda month: month.pieces)
        if best.pieces == self.total:
            return f"{counted(self.total, 'piece')} taken in, in {best.first:%B %Y}"
        sentence = f"{counted(self.total, 'piece')} taken in from {first:%B %Y} to {last:%B %Y}"
        return f"{sentence}; most in {best.first:%B %Y}, {best.pieces}"


def intake(*, at: dt.datetime | None = None) -> Intake:
    """Return the pieces of every accession, and of none, over the last two years at most."""
    months, pieces = _read(timezone.localdate(at))
    return _intake("All accessions", months, pieces, None)


def intake_by_accession(*, at: dt.datetime | None = None) -> list[tuple[Accession, Intake]]:
    """Return the accessions of which anything was taken in lately, each over the same months."""
    months, pieces = _read(timezone.localdate(at))
    keys = {key for _, key in pieces if key is not None}
    rows = Accession.objects.kept().select_related("party").filter(pk__in=keys)
    found = rows.order_by("-year", "-serial")[:MOST_ACCESSIONS]
    return [(row, _intake(f"Accession {row}", months, pieces, {row.pk})) for row in found]


def _intake(title: str, months: Iterable[dt.date], pieces: Pieces, only: set[int] | None) -> Intake:
    sums = dict.fromkeys(months, 0)
    for (month, accession), count in pieces.items():
        if only is None or accession in only:
            sums[month] += count
    return Intake(title, tuple(Month(month, count) for month, count in sums.items()))


def _read(today: dt.date) -> tuple[tuple[dt.date, ...], Pieces]:
    return remembered(f"intake to {today:%Y-%m}", (Part,), lambda: _added_up(today))


def _added_up(today: dt.date) -> tuple[tuple[dt.date, ...], Pieces]:
    kept = Part.objects.kept().order_by()
    first = kept.aggregate(first=Min("recorded_at"))["first"]
    begin = timezone.localtime(first).date() if first else today
    months = months_between(min(begin, today), today, MOST_MONTHS)
    pieces: dict[tuple[dt.date, int | None], int] = {}
    # One reading of the index a month: cutting each date down to its month takes ten times longer.
    parts = [_in_month(kept, month) for month in months]
    for month, accession, count in parts[0].union(*parts[1:], all=True):
        pieces[dt.date.fromisoformat(month), accession] = count
    for split, came, lot_of, quantity in _split_off():
        for place, more in (((split, lot_of), -quantity), ((came, lot_of), quantity)):
            if place[0] in months:
                pieces[place] = pieces.get(place, 0) + more
    return months, pieces


def _in_month(kept: QuerySet[Part], month: dt.date) -> QuerySet[Part, tuple[str, int | None, int]]:
    begin, end = midnight(month), midnight(month_after(month))
    within = kept.filter(recorded_at__gte=begin, recorded_at__lt=end)
    named = within.annotate(month=Value(month.isoformat())).values("month", "accession")
    return named.annotate(count=Sum("quantity")).values_list("month", "accession", "count")


def _split_off() -> Iterable[tuple[dt.date, dt.date, int | None, int]]:
    """Yield how many pieces were split off in which month, of a lot that came in which month."""
    rows = Part.objects.kept().filter(split_from__isnull=False).order_by()
    columns = ("pk", "split_from", "accession", "quantity", "recorded_at")
    split = list(rows.values_list(*columns))
    lots = {pk: lot for pk, lot, *_ in split if lot is not None}
    roots = {pk: _root(pk, lots) for pk in lots}
    moments = dict(Part.objects.filter(pk__in=set(roots.values())).values_list("pk", "recorded_at"))
    for pk, _, accession, count, at in split:
        yield _month(at), _month(moments[roots[pk]]), accession, count


def _month(moment: dt.datetime) -> dt.date:
    return month_of(timezone.localtime(moment).date())


def _root(pk: int, lots: Mapping[int, int]) -> int:
    while pk in lots:
        pk = lots[pk]
    return pk
