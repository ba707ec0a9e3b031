"""What lies at a location against what the record says: here, missing, unexpected, unknown."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Count, Q

from catalog.models import Location, Part, PrintedTag, StockTake, StockTakeLine
from catalog.models.parts import PartQuerySet
from catalog.queries.photos import main_photos
from catalog.queries.places import in_walking_order
from catalog.reckoning.codes import is_valid_tag_code, normalize_tag_code, tag_problem

Result = StockTakeLine.Result


@dataclass(frozen=True, slots=True)
class Found:
    """What one scanned or typed line names: a part, a place, or neither, with the reason."""

    words: str
    part: Part | None = None
    location: Location | None = None
    note: str = ""


def expected_at(location: Location) -> PartQuerySet:
    """Return the parts that are recorded at the location or at any place inside it."""
    below = Q(location__lineage__startswith=location.lineage)
    return Part.objects.kept().filter(below).select_related("component", "location")


def is_at(part: Part, location: Location) -> bool:
    """Say whether the part, or what holds it, is recorded at the location or inside it."""
    holder: Part = part
    # A part is at most three deep inside others.
    while holder.location is None and holder.inside is not None:
        holder = holder.inside
    return holder.location is not None and holder.location.lineage.startswith(location.lineage)


def read_lines(lines: Iterable[str]) -> list[Found]:
    """Look up every line, in a fixed number of queries; what is there twice comes once."""
    wanted = list(dict.fromkeys(line.strip() for line in lines if line.strip()))
    codes = {line: normalize_tag_code(line) for line in wanted}
    numbers = {form for line in wanted for form in (line, line.lower())}
    rows = Part.objects.filter(Q(tag__in=codes.values()) | Q(number__in=numbers))
    parts: dict[str, Part] = {}
    for part in rows.select_related("component", "location", "inside__location", "inside__inside"):
        parts.update({name: part for name in (part.tag, part.number) if name})
    places = {str(row.tag): row for row in Location.objects.filter(tag__in=codes.values())}
    printed = set(PrintedTag.objects.filter(code__in=codes.values()).values_list("code", flat=True))
    found = [_found(line, codes[line], parts, places, printed) for line in wanted]
    return list({one.part or one.words: one for one in found}.values())


def stock_takes_of(location: Location) -> list[StockTake]:
    """Return the stock-takes of the location, newest first, with how many lines of each kind."""
    counts = {
        f"{result.value}_count": Count("lines", filter=Q(lines__result=result)) for result in Result
    }
    rows = StockTake.objects.filter(location=location).select_related("counted_by")
    return list(rows.annotate(**counts)[:20])


@dataclass(frozen=True, slots=True)
class Outcome:
    """The lines of a stock-take by their result, and what can still be moved."""

    here: tuple[StockTakeLine, ...]
    missing: tuple[StockTakeLine, ...]
    unexpected: tuple[StockTakeLine, ...]
    unknown: tuple[StockTakeLine, ...]
    elsewhere: tuple[Part, ...]


def outcome_of(stock_take: StockTake) -> Outcome:
    """Sort the lines of a stock-take; ``elsewhere`` are unexpected parts not yet moved here."""
    rows = stock_take.lines.select_related(
        "part__component", "part__location", "part__inside__location", "part__inside__inside"
    )
    by_result: dict[str, list[StockTakeLine]] = {result: [] for result in Result}
    for line in rows:
        by_result[line.result].append(line)
    found = [line.part for line in by_result[Result.UNEXPECTED] if line.part is not None]
    elsewhere = [
        part for part in found if not part.is_withdrawn and not is_at(part, stock_take.location)
    ]
    return Outcome(
        **{name: tuple(lines) for name, lines in by_result.items()}, elsewhere=tuple(elsewhere)
    )


# A sheet of more pages than this is not carried along a rack.
MOST_PRINTED = 400


def sheet_rows(location: Location) -> list[tuple[Part, str]]:
    """Return the parts to be looked for, in the order of a walk, with their photo's content."""
    found = expected_at(location).in_numerical_order()[: MOST_PRINTED + 1]
    parts = sorted(found, key=lambda part: (in_walking_order(str(part.location)), part.number_sort))
    photos = main_photos("part", [part.pk for part in parts])
    return [(part, photos[part.pk].sha256 if part.pk in photos else "") for part in parts]


def _found(
    line: str,
    code: str,
    parts: Mapping[str, Part],
    places: Mapping[str, Location],
    printed: set[str],
) -> Found:
    part = parts.get(code) or parts.get(line) or parts.get(line.lower())
    if part is not None and not part.is_withdrawn:
        return Found(line, part=part)
    if part is not None:
        return Found(line, note=f"{part} is withdrawn: {part.withdrawn_reason}")
    if place := places.get(code):
        return Found(line, location=place, note=f"the label of {place}, not of a part")
    return Found(line, note=_why_unknown(line, code in printed))


def _why_unknown(line: str, is_printed: bool) -> str:
    if is_printed:
        return "this tag was printed, but no piece was taken in with it yet"
    if is_valid_tag_code(line):
        return "nothing in the catalog bears this tag"
    if any(character.isalpha() for character in line) and "." not in line:
        return tag_problem(line) or ""
    return "no part has this number"
