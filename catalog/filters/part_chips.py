"""The quick choices of the list of parts, each a link that makes it or takes it back."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from catalog.filters.parts import PartFilter
from catalog.models import Part


@dataclass(frozen=True, slots=True)
class Chip:
    """One choice: its words, the address it leads to, and how many parts it leaves."""

    words: str
    url: str
    count: int | None
    on: bool


@dataclass(frozen=True, slots=True)
class ChipGroup:
    """Choices of which one is made at a time, or that stand alone."""

    label: str
    chips: tuple[Chip, ...]


CHOICES: dict[str, Iterable[tuple[str, str]]] = {
    "standing": Part.Standing.choices,
    "usability": Part.Usability.choices,
}
FLAGS = {"untagged": "without tag", "placeless": "without location", "withdrawn": "withdrawn"}
LABELS = {"standing": "Identification", "usability": "Usability"}


def chip_groups(chosen: PartFilter, counts: Mapping[str, int]) -> list[ChipGroup]:
    """Return the quick choices, with counts beside those that are still open."""
    address = chosen.data or {}
    groups = [
        ChipGroup(
            LABELS[name],
            tuple(_chip(address, counts, (name, value), words) for value, words in choices),
        )
        for name, choices in CHOICES.items()
    ]
    flags = (_chip(address, counts, (name, "1"), words) for name, words in FLAGS.items())
    return [*groups, ChipGroup("Only those", tuple(flags))]


def taken_back(chosen: PartFilter) -> list[Chip]:
    """Return what was chosen otherwise, each as a link that takes it back."""
    address = chosen.data or {}
    return [
        Chip(str(value), _url(address, name, ""), None, on=True)
        for name, value in chosen.chosen.items()
        if name not in CHOICES and name not in FLAGS
    ]


def _chip(
    address: Mapping[str, str], counts: Mapping[str, int], choice: tuple[str, str], words: str
) -> Chip:
    name, value = choice
    on = address.get(name) == value
    count = counts[f"{name}_{value}"] if counts and name not in address else None
    return Chip(words, _url(address, name, "" if on else value), count, on)


def _url(address: Mapping[str, str], name: str, value: str) -> str:
    kept = {**address, name: value}
    return "?" + urlencode({key: text for key, text in kept.items() if text})
