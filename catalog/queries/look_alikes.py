"""Parts that are like a piece by what is recorded: sizes that agree, and marks."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Q

from catalog.models import Characteristic, Measurement, Part, PartMark, Photo
from catalog.queries.components import spelling
from catalog.queries.fit_facts import IN_FLOATS
from catalog.queries.measurements import Measured
from catalog.queries.photos import main_photos
from catalog.reckoning.marks import match_mark
from catalog.reckoning.uncertainty import Measured as Reading
from catalog.reckoning.uncertainty import distance

# Two readings agree when honest ones would differ as much now and then.
ALIKE_WITHIN = 2.58
LEAST_REACH_MM = 0.5
AT_MOST, READ_AT_MOST, MARK_SCORE = 8, 100, 0.9


@dataclass(frozen=True, slots=True)
class LookAlike:
    """Another part, what agrees, and its photo."""

    part: Part
    agreeing: tuple[str, ...]
    photo: Photo | None

    @property
    def words(self) -> str:
        return "; ".join(self.agreeing)


def look_alikes(part: Part, readings: Iterable[Measured]) -> tuple[LookAlike, ...]:
    """Return the parts that agree with most of what is measured and marked on ``part``."""
    agreeing: dict[int, list[str]] = {}
    for key, words in (*_by_size(part, readings), *_by_mark(part)):
        agreeing.setdefault(key, []).append(words)
    keys = sorted(agreeing, key=lambda key: (-len(agreeing[key]), key))[:AT_MOST]
    rows = Part.objects.kept().select_related("component", "vehicle_class").in_bulk(keys)
    photos = main_photos("part", keys)
    return tuple(
        LookAlike(rows[key], tuple(dict.fromkeys(agreeing[key])), photos.get(key))
        for key in keys
        if key in rows
    )


def _by_size(part: Part, readings: Iterable[Measured]) -> Iterable[tuple[int, str]]:
    groups = list(readings)
    if not groups:
        return
    ids: dict[str, list[int]] = {}
    for pk, name in Characteristic.objects.values_list("pk", "name"):
        ids.setdefault(spelling(name), []).append(pk)
    for group in groups:
        own = group.together.combined
        reach = max(LEAST_REACH_MM, 3 * own.uncertainty)
        near = Q(value_mm__range=(own.value - reach, own.value + reach))
        named = Q(characteristic__in=ids.get(spelling(group.name), []))
        free = Q(characteristic__isnull=True, name__iexact=group.name)
        for is_named in (named, free):
            found = Measurement.objects.kept().filter(near, is_named).exclude(part=part.pk)
            rows = found.order_by("value_mm", "pk").values_list("part", *IN_FLOATS)
            for key, value, uncertainty in rows[:READ_AT_MOST]:
                reading = Reading(value, uncertainty)
                if distance(own, reading) <= ALIKE_WITHIN:
                    yield key, f"{group.name} {reading}"


def _by_mark(part: Part) -> Iterable[tuple[int, str]]:
    for mark in part.marks.all():
        rows = PartMark.objects.exclude(part=part.pk).filter(text__istartswith=mark.text[:1])
        for row in rows.order_by("pk")[:READ_AT_MOST]:
            if match_mark(mark.text, row.text).score >= MARK_SCORE:
                yield row.part_id, f"mark “{row.text}”"
