"""Drawings and figures on paper: the picture, and what is marked on it."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Photo
from catalog.queries.drawings import Spot
from catalog.queries.patents import FigureSheet


@dataclass(frozen=True, slots=True)
class Sign:
    """A short sign at a place, in fractions of the picture's width and height."""

    sign: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class PrintedPlate:
    """A picture with its signs."""

    title: str
    picture: Photo
    spots: tuple[Sign, ...]


def figure_plate(sheet: FigureSheet) -> PrintedPlate:
    """Return a figure of a patent with its reference characters."""
    figure, rows = sheet.figure, [spot.row for spot in sheet.spots]
    spots = tuple(Sign(row.character, row.x, row.y) for row in rows)
    return PrintedPlate(f"{figure.label} {figure.title}".strip(), figure.picture, spots)


def drawing_plate(title: str, picture: Photo, spots: Iterable[Spot]) -> PrintedPlate:
    """Return a drawing of a class with the codes of its positions, each place marked once."""
    by_place: dict[tuple[float, float], list[str]] = {}
    for spot in spots:
        by_place.setdefault((spot.x, spot.y), []).append(spot.code)
    signs = (Sign("/".join(dict.fromkeys(codes)), *place) for place, codes in by_place.items())
    return PrintedPlate(title, picture, tuple(signs))
