"""What is known of a patent: its codes in words, its term, its figures, and worn marks of it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db import models
from django.db.models import Prefetch

from catalog.models import Likeness, Part, Patent, PatentFigure, Photo, ReferenceCharacter
from catalog.queries.joined import with_joined
from catalog.queries.photos import main_photos
from catalog.reckoning.patents import (
    Expiry,
    Marking,
    PatentError,
    british_numbering,
    check_number_and_date,
    country_in_words,
    expiry,
    kind_in_words,
)


@dataclass(frozen=True, slots=True)
class PatentFacts:
    """What follows from number, codes and dates."""

    country: str
    kind: str
    numbering: str
    term: Expiry | None
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FigureSpot:
    """A reference character as it is drawn over the figure."""

    row: ReferenceCharacter
    across: str
    down: str


@dataclass(frozen=True, slots=True)
class Resemblance:
    """A part or component beside the figure, with a photo of the part where there is one."""

    row: Likeness
    photo: Photo | None


@dataclass(frozen=True, slots=True)
class FigureSheet:
    """A figure with its characters and what resembles it."""

    figure: PatentFigure
    spots: tuple[FigureSpot, ...]
    resemblances: tuple[Resemblance, ...]


def patent_facts(patent: Patent) -> PatentFacts:
    """Compute what number, codes and dates of a patent say, US statutes for US patents only."""
    is_american = patent.country == "US"
    term, warnings = None, []
    if is_american and patent.issued_on:
        warnings = check_number_and_date(patent.number, patent.issued_on)
        try:
            term = expiry(patent.issued_on, filed=patent.filed_on)
        except PatentError as problem:
            warnings.append(str(problem))
    return PatentFacts(
        country=country_in_words(patent.country),
        kind=kind_in_words(patent.country, patent.kind, patent.issued_on) if patent.kind else "",
        numbering=british_numbering(patent.year) if patent.country == "GB" and patent.year else "",
        term=term,
        warnings=tuple(warnings),
    )


def figure_sheets(patent: Patent, *, published_only: bool = False) -> list[FigureSheet]:
    """Return the figures of a patent in order, in a fixed number of queries."""
    figures = patent.figures.filter(picture__withdrawn_at__isnull=True)
    if published_only:
        figures = figures.filter(picture__is_published=True)
    return _sheets(figures, published_only=published_only)


def figure_sheet(figure: PatentFigure) -> FigureSheet:
    (sheet,) = _sheets(PatentFigure.objects.filter(pk=figure.pk), published_only=False)
    return sheet


def likenesses_of(part: Part) -> list[Likeness]:
    """Return the figures that a part was held against, with their patents."""
    of_patent = ("figure__patent__country", "figure__patent__number")
    return list(with_joined(part.likenesses.all(), "figure__label", *of_patent))


def patents_agreeing(marking: Marking) -> list[Patent]:
    """Return the recorded US patents that may be the one that is marked."""
    return those_agreeing(marking, numbered_patents())


def numbered_patents() -> list[tuple[Patent, int]]:
    """Return the US patents of which number and day are recorded, each with its number."""
    rows = Patent.objects.kept().filter(country="US", issued_on__isnull=False)
    return [(patent, int(patent.number)) for patent in rows if patent.number.isdigit()]


def those_agreeing(marking: Marking, numbered: Iterable[tuple[Patent, int]]) -> list[Patent]:
    return [
        patent
        for patent, number in numbered
        if patent.issued_on and marking.agrees_with(number, patent.issued_on)
    ]


def _sheets(figures: models.QuerySet[PatentFigure], *, published_only: bool) -> list[FigureSheet]:
    likenesses = Likeness.objects.exclude(part__withdrawn_at__isnull=False)
    if published_only:
        likenesses = likenesses.exclude(part__is_published=False)
    found = figures.select_related("picture").prefetch_related(
        "characters__component",
        Prefetch("likenesses", likenesses.select_related("part__component", "component")),
    )
    parts = {row.part_id for figure in found for row in figure.likenesses.all() if row.part_id}
    photos = main_photos("part", parts)
    shown = {key: one for key, one in photos.items() if one.is_published or not published_only}
    return [_sheet(figure, shown) for figure in found]


def _sheet(figure: PatentFigure, photos: Mapping[int, Photo]) -> FigureSheet:
    return FigureSheet(
        figure=figure,
        spots=tuple(
            FigureSpot(row, f"{row.x:.3%}", f"{row.y:.3%}") for row in figure.characters.all()
        ),
        resemblances=tuple(
            Resemblance(row, photos.get(row.part_id or 0)) for row in figure.likenesses.all()
        ),
    )


def part_named(words: str) -> Part | None:
    """Return the part of this number or tag, whatever the case."""
    kept = Part.objects.kept()
    plain = words.strip()
    return kept.filter(number__iexact=plain).first() or kept.filter(tag__iexact=plain).first()
