"""The bench queue: parts that came in and still lack something, in the order they came."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import (
    BooleanField,
    CharField,
    Count,
    Exists,
    ExpressionWrapper,
    F,
    OuterRef,
    Q,
    QuerySet,
    Window,
)
from django.db.models.functions import Cast, Left, Lower

from catalog.models import Fitting, Part, Photo, SeenApart
from catalog.models.parts import PartQuerySet

REASONS = {
    "untagged": "without a tag",
    "unidentified": "not identified",
    "placeless": "without a location",
    "doubtful": "perhaps entered twice",
}


@dataclass(frozen=True, slots=True)
class Twin:
    """Another part that may be the same piece, and what speaks for it."""

    part: Part
    why: str

    @property
    def name(self) -> str:
        """What the part is found by when it is typed."""
        return self.part.number or self.part.tag or self.part.label


@dataclass(frozen=True, slots=True)
class Neighbors:
    """What is before and behind a part in the queue, and how many there are in all."""

    previous: int | None
    following: int | None
    count: int


def bench_queue(*, show: str = "", accession: int | None = None) -> PartQuerySet:
    """Return the parts that wait, oldest first; ``show`` is one of the reasons, or all of them.

    The order is that of their keys, which never changes: whoever goes on behind the part they
    had before their eyes misses none, whatever left the queue meanwhile.
    """
    conditions = _conditions()
    wanted = conditions.get(show) or _any(conditions.values())
    waiting = Part.objects.kept().filter(wanted)
    if accession is not None:
        waiting = waiting.filter(accession=accession)
    return waiting.order_by("pk")


def with_reasons(parts: PartQuerySet) -> PartQuerySet:
    """Add to each part whether it waits for each of the reasons, as ``is_untagged`` and so on."""
    told = {
        f"is_{name}": ExpressionWrapper(condition, output_field=BooleanField())
        for name, condition in _conditions().items()
    }
    return parts.annotate(**told).select_related("component", "location", "inside", "recorded_by")


def reasons_of(part: Part) -> list[str]:
    """Return in words why a part that was fetched with its reasons waits."""
    return [words for name, words in REASONS.items() if getattr(part, f"is_{name}")]


def bench_counts(accession: int | None = None) -> dict[str, int]:
    """Return how many parts wait for each of the reasons, and in all."""
    conditions = _conditions()
    rows = (
        Part.objects.kept()
        if accession is None
        else Part.objects.kept().filter(accession=accession)
    )
    counted: Mapping[str, Q] = {"all": _any(conditions.values()), **conditions}
    return rows.aggregate(**{name: Count("pk", filter=one) for name, one in counted.items()})


def neighbors_of(part: Part, *, show: str = "", accession: int | None = None) -> Neighbors:
    queue = bench_queue(show=show, accession=accession).values_list("pk", flat=True)
    return Neighbors(
        previous=queue.filter(pk__lt=part.pk).reverse().first(),
        following=queue.filter(pk__gt=part.pk).first(),
        count=queue.count(),
    )


def twins_of(part: Part) -> list[Twin]:
    """Return the kept parts that may be the same piece as ``part``, each once."""
    others = Part.objects.kept().exclude(pk=part.pk).select_related("component", "location")
    found: dict[int, Twin] = {}
    for why, rows in (
        ("the same photograph", _with_photo_of(part, others)),
        (f"tag {part.tag} was on it before", _with_tag_of(part, others)),
        ("the same words on the same day", _with_words_of(part, others)),
    ):
        for other in rows[:10]:
            found.setdefault(other.pk, Twin(other, why))
    return list(found.values())


def _any(conditions: Iterable[Q]) -> Q:
    together = Q()
    for condition in conditions:
        together |= condition
    return together


def _conditions() -> dict[str, Q]:
    fitted = Exists(Fitting.objects.filter(part=OuterRef("pk"), state=Fitting.State.FITTED))
    apart = Exists(SeenApart.objects.filter(part=OuterRef("pk")))
    # The four wheels of a wagon may well be described alike: they are counted where they sit.
    doubtful = _photo_elsewhere() | _tag_elsewhere() | (_words_elsewhere() & ~Q(fitted))
    return {
        "untagged": Q(tag=None) & ~Q(fitted),
        "unidentified": Q(identification_status=Part.Standing.UNIDENTIFIED),
        "placeless": Q(location=None, inside=None) & ~Q(fitted),
        "doubtful": doubtful & ~Q(apart),
    }


def _of_parts() -> QuerySet[Photo]:
    return (
        Photo.objects.kept().order_by().filter(part__isnull=False, part__withdrawn_at__isnull=True)
    )


def _photo_elsewhere() -> Q:
    several = _of_parts().values("sha256").annotate(parts=Count("part", distinct=True))
    shared = several.filter(parts__gt=1).values("sha256")
    return Q(pk__in=_of_parts().filter(sha256__in=shared).values("part"))


def _tag_elsewhere() -> Q:
    """Hold for a part whose tag was on another kept part: it was tied on anew, or misread."""
    bearers = Part.history.exclude(tag=None).order_by().values("tag")
    moved = bearers.annotate(parts=Count("id", distinct=True)).filter(parts__gt=1).values("tag")
    kept = Part.objects.kept().values("pk")
    former = Part.history.filter(tag=OuterRef("tag"), id__in=kept).exclude(id=OuterRef("pk"))
    return Q(tag__in=moved) & Q(Exists(former))


def _words_elsewhere() -> Q:
    """Hold for an untagged part that was described in the same words on the same day.

    Two tags are two pieces, so what has a tag of its own is not doubted for its words.
    """
    alike = Window(
        Count("pk"), partition_by=[F("accession"), Lower("description"), _day("recorded_at")]
    )
    described = Part.objects.kept().order_by().exclude(description="").annotate(alike=alike)
    return Q(tag=None, pk__in=described.filter(alike__gt=1).values("pk"))


def _day(field: str) -> Left:
    # The database's own text of an instant begins with the day, and costs no call for each row.
    return Left(Cast(field, CharField()), 10)


def _with_photo_of(part: Part, others: PartQuerySet) -> PartQuerySet:
    own = Photo.objects.kept().filter(part=part).values("sha256")
    return others.filter(pk__in=_of_parts().filter(sha256__in=own).values("part"))


def _with_tag_of(part: Part, others: PartQuerySet) -> PartQuerySet:
    if part.tag is None:
        return others.none()
    return others.filter(pk__in=Part.history.filter(tag=part.tag).values("id"))


def _with_words_of(part: Part, others: PartQuerySet) -> PartQuerySet:
    if part.tag is not None or not part.description:
        return others.none()
    own = Part.objects.filter(pk=part.pk).annotate(day=_day("recorded_at")).values("day")
    same = others.annotate(day=_day("recorded_at")).filter(day__in=own)
    return same.filter(description__iexact=part.description, accession=part.accession_id)
