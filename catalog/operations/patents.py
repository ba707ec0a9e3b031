"""Recording patents, their figures with reference characters, and what resembles them."""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models, transaction

from catalog.models import (
    Component,
    Likeness,
    Member,
    Part,
    Party,
    Patent,
    PatentFigure,
    Photo,
    ReferenceCharacter,
)
from catalog.operations.parties import party_meant
from catalog.operations.photos import record_photo
from catalog.operations.picture_files import PictureFile, keep_picture
from catalog.operations.record import change, record_new, remove
from catalog.reckoning.patents import (
    PatentError,
    british_number,
    country_in_words,
    kind_in_words,
)


@transaction.atomic
def record_patent(values: Mapping[str, Any], *, by: Member) -> Patent:
    """Record a patent; ``country``, ``number`` and ``title`` are needed.

    ``inventors`` may hold parties or names, and ``assignee`` may be a name: new names become
    parties. Refuse codes that are none, and a British number without the year it needs. A number
    that does not agree with the date is only warned of, on the page.
    """
    return record_new(Patent, _read(values, by=by), by=by)


@transaction.atomic
def change_patent(
    patent: Patent, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Patent:
    """Change a patent; ``values`` are as in ``record_patent``, and may leave out what stays."""
    kept = {name: getattr(patent, name) for name in ("country", "number", "year", "kind")}
    read = _read({**kept, **values}, by=by)
    return change(patent, read, by=by, seen=seen)


def add_figure(
    patent: Patent, file: PictureFile, *, label: str, title: str = "", by: Member
) -> PatentFigure:
    """Keep the picture in ``file`` with the patent as a figure of it, both or neither."""
    kept = keep_picture(file)
    with transaction.atomic():
        picture = record_photo(
            kept,
            by=by,
            patent=patent,
            role=Photo.PictureRole.DRAWING,
            caption=f"{label.strip()} {title.strip()}".strip(),
            is_published=patent.is_published,
        )
        return add_figure_of(patent, picture, label=label, title=title, by=by)


@transaction.atomic
def add_figure_of(
    patent: Patent, picture: Photo, *, label: str, title: str = "", by: Member
) -> PatentFigure:
    """Make a picture that is kept already a figure of the patent; refuse a label used twice."""
    last = patent.figures.aggregate(last=models.Max("sequence"))["last"] or 0
    values = {"patent": patent, "picture": picture, "sequence": last + 1}
    told = {"label": label.strip(), "title": title.strip()}
    return record_new(PatentFigure, {**values, **told}, by=by)


@transaction.atomic
def change_figure(
    figure: PatentFigure, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> PatentFigure:
    """Change the label, the title or the order of a figure."""
    return change(figure, values, by=by, seen=seen)


@transaction.atomic
def remove_figure(figure: PatentFigure, *, by: Member) -> None:
    """Take a figure off its patent with its characters; the picture stays among the photos."""
    for row in [*figure.characters.all(), *figure.likenesses.all(), figure]:
        remove(row, by=by, why=f"figure removed: {figure.label}")


@transaction.atomic
def add_character(
    figure: PatentFigure,
    *,
    character: str,
    at: tuple[float, float],
    words: str = "",
    component: Component | None = None,
    by: Member,
) -> ReferenceCharacter:
    """Say where a reference character stands on a figure, what the patent calls it, and what it is.

    ``at`` is in fractions of width and height from the upper left corner.
    """
    told = {"character": character.strip(), "words": words.strip(), "component": component}
    values = {"figure": figure, "x": at[0], "y": at[1], **told}
    return record_new(ReferenceCharacter, values, by=by, why=f"character {character.strip()}")


@transaction.atomic
def remove_character(character: ReferenceCharacter, *, by: Member) -> None:
    """Take a reference character off its figure."""
    remove(character, by=by, why=f"character removed: {character}")


@transaction.atomic
def add_likeness(
    figure: PatentFigure,
    *,
    degree: str,
    part: Part | None = None,
    component: Component | None = None,
    differences: str = "",
    by: Member,
) -> Likeness:
    """Say how a part or a component resembles a figure.

    ``degree`` is ``"same"``, ``"similar"`` or ``"differs"``; all but the first say in words what
    differs.
    """
    if (part is None) == (component is None):
        raise ValidationError({"part": "Say which part or which component resembles the figure."})
    told = {"degree": degree, "differences": differences.strip()}
    return record_new(
        Likeness, {"figure": figure, "part": part, "component": component, **told}, by=by
    )


@transaction.atomic
def remove_likeness(likeness: Likeness, *, by: Member) -> None:
    """Take back what was said of a likeness."""
    remove(likeness, by=by, why=f"no longer said: {likeness}")


def _read(values: Mapping[str, Any], *, by: Member) -> dict[str, Any]:
    read = dict(values)
    read["country"] = str(read["country"]).strip().upper()
    read["number"] = "".join(str(read["number"]).replace(",", "").split())
    read["kind"] = str(read.get("kind") or "").strip().upper()
    _refuse_unknown_codes(read)
    if "assignee" in read:
        read["assignee"] = party_meant(read["assignee"], "assignee", by=by)
    if "inventors" in read:
        read["inventors"] = _inventors(read["inventors"], by=by)
    return read


def _inventors(meant: Iterable[Party | str], *, by: Member) -> list[Party]:
    found = [party_meant(one, "inventors", by=by) for one in meant]
    return [party for party in found if party]


@contextmanager
def _told_beside(field: str) -> Iterator[None]:
    try:
        yield
    except PatentError as problem:
        raise ValidationError({field: str(problem)}) from problem


def _refuse_unknown_codes(read: Mapping[str, Any]) -> None:
    with _told_beside("country"):
        country_in_words(read["country"])
    if read["kind"]:
        with _told_beside("kind"):
            kind_in_words(read["country"], read["kind"], read.get("issued_on"))
    if read["country"] == "GB" and read["number"].isdigit():
        with _told_beside("year"):
            british_number(int(read["number"]), read.get("year"))
