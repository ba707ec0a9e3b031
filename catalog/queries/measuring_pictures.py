"""The pictures on which it is shown where to measure, each once with all that it shows."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Characteristic, Component, Part, Photo
from catalog.queries.measurements import characteristics_of


@dataclass(frozen=True, slots=True)
class MeasuringPicture:
    """A picture, and the names of all whose places it shows."""

    picture: Photo
    names: tuple[str, ...]

    @property
    def in_words(self) -> str:
        return "; ".join(self.names)


def pictures_of_part(part: Part) -> list[MeasuringPicture]:
    """Return where a part is measured, as what it is identified as."""
    return _of_characteristics(characteristics_of(part))


def pictures_of_component(component: Component) -> list[MeasuringPicture]:
    return _of_characteristics(component.characteristics.all())


def pictures_of(places: Iterable[tuple[int | None, str]]) -> list[MeasuringPicture]:
    """Return the pictures of ``places``, each the key of a picture and a name, in one query."""
    found: dict[int, list[str]] = {}
    for key, name in places:
        if key is not None:
            found.setdefault(key, []).append(name)
    photos = Photo.objects.kept().in_bulk(list(found))
    return [
        MeasuringPicture(photos[key], tuple(names)) for key, names in found.items() if key in photos
    ]


def _of_characteristics(characteristics: Iterable[Characteristic]) -> list[MeasuringPicture]:
    return pictures_of((one.picture_id, one.name) for one in characteristics)
