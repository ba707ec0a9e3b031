"""Drawing the codes of tags that are about to be printed, each for the first and only time."""

from datetime import datetime
from random import SystemRandom

from django.core.exceptions import ValidationError
from django.db import models, transaction
from django.utils import timezone

from catalog.models import Location, Member, PrintedTag
from catalog.operations.places import change_location
from catalog.operations.record_many import record_many
from catalog.queries.tags import codes_in_use
from catalog.reckoning.codes import Chooser, new_tag_code

MOST_TAGS = 500


@transaction.atomic
def draw_tags(
    count: int, *, by: Member, at: datetime | None = None, random: Chooser | None = None
) -> list[PrintedTag]:
    """Draw ``count`` codes for tags to be printed, and remember them as printed.

    None of them was ever printed, nor was it ever on a part or a location. A sheet that is
    spoiled is thrown away and its codes with it: printed again, one code would hang on two
    pieces. ``random`` is a source of chance that cannot be guessed unless it is given.
    """
    if not 1 <= count <= MOST_TAGS:
        raise ValidationError({"count": f"Print between 1 and {MOST_TAGS} tags at once."})
    last = PrintedTag.objects.aggregate(last=models.Max("sheet", default=0))["last"]
    tags = [
        PrintedTag(code=code, sheet=last + 1, printed_at=at or timezone.now(), printed_by=by)
        for code in _fresh(count, random or SystemRandom())
    ]
    record_many(tags, by=by)
    return tags


@transaction.atomic
def tag_locations(
    locations: list[Location], *, by: Member, random: Chooser | None = None
) -> list[Location]:
    """Give a tag to each of ``locations`` that has none, so that all of them can be labeled.

    A label that is worn is printed again with the same code.
    """
    bare = [location for location in locations if not location.tag]
    for location, code in zip(bare, _fresh(len(bare), random or SystemRandom()), strict=True):
        change_location(location, {"tag": code}, by=by)
    return locations


def _fresh(count: int, random: Chooser) -> list[str]:
    codes: dict[str, None] = {}
    while len(codes) < count:
        drawn = [new_tag_code(random) for _ in range(count - len(codes))]
        used = codes_in_use(drawn)
        codes.update(dict.fromkeys(code for code in drawn if code not in used))
    return list(codes)
