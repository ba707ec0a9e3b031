"""The files of the demonstration, and what was recorded of them so far, by name."""

import datetime as dt
import json
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Any

from django.conf import settings
from django.core.files import File

from catalog.models import (
    Accession,
    Characteristic,
    Component,
    Instrument,
    Location,
    Member,
    Part,
    Party,
    PatentFigure,
    Position,
    Source,
    Vehicle,
    VehicleClass,
)
from catalog.reckoning.codes import new_tag_code

FOLDER = Path(settings.FIXTURES_ROOT) / "demonstration"
# A Saturday, when the group meets; each takes some five hours, and the next comes a week later.
BEGINNING = dt.datetime(2026, 3, 7, 10, 0, tzinfo=dt.UTC)
AFTERNOON = 15
WEEK = dt.timedelta(days=7)


def read(name: str) -> dict[str, Any]:
    """Return one of the files under ``fixtures/demonstration``."""
    return tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


def spots(view: str) -> list[dict[str, Any]]:
    """Return where positions stand on a drawing, in fractions of its width and height."""
    views = json.loads((FOLDER / "spots.json").read_text(encoding="utf-8"))
    found: list[dict[str, Any]] = views[view]["positions"]
    return found


def picture(folder: str, name: str) -> File:  # type: ignore[type-arg]
    """Open a photo or drawing of the demonstration."""
    return File((FOLDER / folder / name).open("rb"), name=name)


@dataclass(slots=True)
class Ledger:
    """What the demonstration has recorded so far, so that later lines can refer to it."""

    members: dict[str, Member] = field(default_factory=dict)
    parties: dict[str, Party] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    locations: dict[str, Location] = field(default_factory=dict)
    components: dict[str, Component] = field(default_factory=dict)
    classes: dict[str, VehicleClass] = field(default_factory=dict)
    accessions: dict[str, Accession] = field(default_factory=dict)
    vehicles: dict[str, Vehicle] = field(default_factory=dict)
    parts: dict[str, Part] = field(default_factory=dict)
    figures: dict[str, PatentFigure] = field(default_factory=dict)
    instruments: dict[str, Instrument] = field(default_factory=dict)
    chance: Random = field(default_factory=lambda: Random(1889))  # noqa: S311 - tags, no secrets
    now: dt.datetime = BEGINNING
    later: list[tuple[Part, Vehicle, Position]] = field(default_factory=list)

    def characteristic(self, names: Iterable[str]) -> Characteristic:
        component, characteristic = names
        return self.components[component].characteristics.get(name=characteristic)

    def tag(self) -> str:
        return new_tag_code(self.chance)

    def moment(self) -> dt.datetime:
        """Return the next moment of the Saturdays on which the group cataloged all this."""
        self.now += dt.timedelta(minutes=5)
        if self.now.hour >= AFTERNOON:
            self.now = self.now.replace(hour=BEGINNING.hour, minute=0) + WEEK
        return self.now

    def wait_for(self, day: dt.date | None) -> None:
        """Let Saturdays pass until ``day``: nothing is taken in before it came."""
        while day is not None and self.now.date() < day:
            self.now = self.now.replace(hour=BEGINNING.hour, minute=0) + WEEK

    @property
    def volunteer(self) -> Member:
        return self.members["volunteer"]

    @property
    def curator(self) -> Member:
        return self.members["curator"]

    @property
    def steward(self) -> Member:
        return self.members["steward"]
