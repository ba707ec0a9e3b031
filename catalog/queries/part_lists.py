"""A page of the list of parts, at any depth of a hundred thousand of them.

Which parts stand on a page is answered by an index alone, and only their rows are read then;
the count stops where it no longer tells anybody anything.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from django.db.models import Exists, FilteredRelation, OuterRef, Q, QuerySet

from catalog.models import Fitting, Part
from catalog.models.parts import PartQuerySet, part_label
from catalog.queries.addresses import addresses
from catalog.queries.loose_parts import IS_FITTED
from catalog.queries.remembered import remembered
from catalog.queries.search import entries_holding

PAGE_LENGTH = 50
# Beyond these the heading says "more than"; what words find has to be looked at one by one.
COUNTED = 5_000
COUNTED_BY_WORDS = 300
# Counts beside the choices cost a look at every row, so they are given for short lists only.
COUNTED_BY_CHOICE = 500
COUNTED_FIELDS = ("usability", "identification_status", "tag", "location", "inside", "is_fitted")
COLUMNS = (
    "pk",
    "shown__pk",
    "shown__width",
    "shown__height",
    "number",
    "tag",
    "quantity",
    "usability",
    "identification_status",
    "description",
    "component__name",
    "vehicle_class__designation",
    "location__path",
    "inside__pk",
    "inside__number",
    "inside__tag",
    "fitted__vehicle__label",
)
USABILITIES = dict(Part.Usability.choices)
STANDINGS = dict(Part.Standing.choices)


class PartRow(NamedTuple):
    """One part as a list shows it."""

    pk: int
    url: str
    label: str
    what: str
    description: str
    quantity: int
    usability: str
    standing: str
    where: str
    photo_url: str
    photo_height: int


@dataclass(frozen=True, slots=True)
class PartPage:
    """One page of a list, and how many parts the whole list has, as far as they were counted.

    ``by_choice`` tells how many each quick choice would leave, where that is cheap to tell.
    """

    rows: tuple[PartRow, ...]
    number: int
    count: int
    is_counted: bool
    has_next: bool
    by_choice: Mapping[str, int]

    @property
    def has_previous(self) -> bool:
        return self.number > 1

    @property
    def has_other_pages(self) -> bool:
        return self.has_previous or self.has_next

    @property
    def previous_number(self) -> int:
        return self.number - 1

    @property
    def next_number(self) -> int:
        return self.number + 1

    @property
    def last_number(self) -> int:
        return max(1, -(-self.count // PAGE_LENGTH))


def part_page(
    parts: PartQuerySet, *, words: str = "", is_narrowed: bool = True, number: int = 1
) -> PartPage:
    """Return page ``number`` of ``parts``, in numerical order, or as recorded if by ``words``.

    A list that is not ``is_narrowed``, other than by words, is of all parts that are kept.
    """
    if words:
        listed = _by_words(_found(words, parts if is_narrowed else None), number)
    else:
        listed = _in_order(parts, number, None if is_narrowed else _all_kept())
    return PartPage(
        rows=part_rows(listed.keys[:PAGE_LENGTH]),
        number=listed.number,
        count=listed.count,
        is_counted=listed.is_counted,
        has_next=len(listed.keys) > PAGE_LENGTH,
        by_choice=listed.by_choice,
    )


@dataclass(frozen=True, slots=True)
class _Listed:
    """The keys of a page and of one part more, and the counts, as far as it was counted."""

    keys: list[int]
    number: int
    count: int
    is_counted: bool
    by_choice: Mapping[str, int]


def _all_kept() -> int:
    return remembered("parts kept", (Part,), Part.objects.kept().count)


def _in_order(parts: PartQuerySet, number: int, known: int | None) -> _Listed:
    ordered = parts.in_numerical_order()
    if known is None or known <= COUNTED_BY_CHOICE:
        counted = ordered.annotate(is_fitted=IS_FITTED).values_list("pk", *COUNTED_FIELDS)
        first = list(counted[: COUNTED_BY_CHOICE + 1])
        if len(first) <= COUNTED_BY_CHOICE:
            here, number = _page([row[0] for row in first], number, len(first))
            return _Listed(here, number, len(first), True, _by_choice(row[1:] for row in first))
    count = parts.order_by()[: COUNTED + 1].count() if known is None else known
    is_counted = known is not None or count <= COUNTED
    count = count if is_counted else COUNTED
    here, number = _page(
        ordered.values_list("pk", flat=True), number, count if is_counted else None
    )
    return _Listed(here, number, count, is_counted, {})


def _by_words(keys: QuerySet[Any, int], number: int) -> _Listed:
    # The words are looked up once for the count and the nearer pages.
    first = list(keys[: COUNTED_BY_WORDS + 1])
    if len(first) <= COUNTED_BY_WORDS:
        here, number = _page(first, number, len(first))
        found = Part.objects.filter(pk__in=first).annotate(is_fitted=IS_FITTED)
        looked_at = found.values_list(*COUNTED_FIELDS)
        return _Listed(here, number, len(first), True, _by_choice(looked_at))
    is_near = number * PAGE_LENGTH < len(first)
    here, number = _page(first if is_near else keys, number, None)
    return _Listed(here, number, COUNTED_BY_WORDS, False, {})


def _by_choice(rows: Iterable[tuple[Any, ...]]) -> Mapping[str, int]:
    """Return how many of the parts each quick choice would leave."""
    counts: Counter[str] = Counter()
    for usability, standing, tag, location, inside, is_fitted in rows:
        counts[f"usability_{usability}"] += 1
        counts[f"standing_{standing}"] += 1
        counts["untagged_1"] += tag is None and not is_fitted
        counts["placeless_1"] += location is None and inside is None and not is_fitted
    return counts


def _page(
    keys: QuerySet[Any, int] | list[int], number: int, count: int | None
) -> tuple[list[int], int]:
    """Return the keys of a page, or of the last one instead of one that lies behind it."""
    start = (number - 1) * PAGE_LENGTH
    here = list(keys[start : start + PAGE_LENGTH + 1])
    if here or number == 1 or count is None:
        return here, number
    last = max(1, -(-count // PAGE_LENGTH))
    start = (last - 1) * PAGE_LENGTH
    return list(keys[start : start + PAGE_LENGTH + 1]), last


def _found(words: str, parts: PartQuerySet | None) -> QuerySet[Any, int]:
    entries = entries_holding(words).filter(kind="part")
    if parts is not None:
        # From the words to the parts: the other way round each part would be looked up in them.
        entries = entries.filter(Exists(parts.order_by().filter(pk=OuterRef("object_id"))))
    return entries.order_by("pk").values_list("object_id", flat=True)


def parts_chosen(parts: PartQuerySet, words: str = "") -> PartQuerySet:
    """Return all of ``parts``, or those of them that hold ``words``, however many there are."""
    return parts.filter(pk__in=_found(words, None).order_by()) if words else parts


def part_rows(keys: Sequence[int]) -> tuple[PartRow, ...]:
    """Return the parts of these keys as rows, in the order of the keys."""
    is_main = Q(photos__is_main=True, photos__withdrawn_at__isnull=True)
    is_fitted = Q(fittings__state=Fitting.State.FITTED)
    parts = Part.objects.alias(
        shown=FilteredRelation("photos", condition=is_main),
        fitted=FilteredRelation("fittings", condition=is_fitted),
    )
    found = {row[0]: row for row in parts.filter(pk__in=keys).values_list(*COLUMNS)}
    pages = addresses("part-detail", found)
    photos = addresses("photo-file", [row[1] for row in found.values() if row[1]], 320)
    return tuple(_row(found[key], pages, photos) for key in keys if key in found)


def _row(values: tuple[Any, ...], pages: Mapping[int, str], photos: Mapping[int, str]) -> PartRow:
    pk, photo, width, height, number, tag, quantity, usability, standing, description, *rest = (
        values
    )
    component, vehicle_class, path, inside, inside_number, inside_tag, vehicle = rest
    where = f"inside {part_label(inside_number, inside_tag, inside)}" if inside else path
    # What is fitted has no place of its own: it is where its vehicle is.
    where = where or (f"on {vehicle}" if vehicle else "not recorded")
    what = f"{component}, {vehicle_class}" if vehicle_class else component
    return PartRow(
        pk=pk,
        url=pages[pk],
        label=part_label(number, tag, pk),
        what=what or "not known yet",
        description=description,
        quantity=quantity,
        usability=USABILITIES[usability],
        standing=STANDINGS[standing],
        where=where,
        photo_url=photos.get(photo, ""),
        photo_height=round(320 * height / width) if photo else 0,
    )
