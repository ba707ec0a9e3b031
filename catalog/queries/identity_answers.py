"""What is answered to the question what a part may be: candidates, reasons, and what to measure."""

from dataclasses import dataclass

from django.utils.text import capfirst

from catalog.models import Characteristic, Component, Identification, Instrument, VehicleClass
from catalog.queries.identity_evidence import Known
from catalog.queries.identity_hypotheses import Kind
from catalog.reckoning import plurals
from catalog.reckoning.identity import Ranking
from catalog.reckoning.identity_words import STANDS_OUT, percent

# How far from even the logarithm of a factor must be to count as a reason.
NOTABLE = 0.05


@dataclass(frozen=True, slots=True)
class Reason:
    """A factor in words, and how strongly it speaks for the candidate; below 0, against it."""

    words: str
    basis: str
    strength: float

    @property
    def is_notable(self) -> bool:
        return abs(self.strength) > NOTABLE


@dataclass(frozen=True, slots=True)
class MayBe:
    """One thing that the part may be; ``kind`` is empty for something else."""

    key: str
    name: str
    kind: Kind | None
    probability: float
    reasons: tuple[Reason, ...]
    basis: str

    @property
    def component(self) -> Component | None:
        return self.kind.component if self.kind else None

    @property
    def vehicle_class(self) -> VehicleClass | None:
        return self.kind.vehicle_class if self.kind else None

    @property
    def chance(self) -> str:
        return percent(self.probability)

    @property
    def reasons_for(self) -> tuple[Reason, ...]:
        """Return what speaks for it, the strongest first."""
        found = (one for one in self.reasons if one.is_notable and one.strength > 0)
        return tuple(sorted(found, key=lambda one: -one.strength))

    @property
    def reasons_against(self) -> tuple[Reason, ...]:
        """Return what speaks against it, the strongest first."""
        found = (one for one in self.reasons if one.is_notable and one.strength < 0)
        return tuple(sorted(found, key=lambda one: one.strength))

    @property
    def reasons_of_no_weight(self) -> tuple[Reason, ...]:
        """Return what is as likely for the candidate as for what it is set against."""
        return tuple(one for one in self.reasons if not one.is_notable)

    @property
    def worst(self) -> str:
        """Return the strongest reason against it."""
        against = self.reasons_against
        return against[0].words if against else "Few places in the collection take one."

    @property
    def confidence(self) -> str:
        sure = Identification.Confidence
        return sure.PROBABLE if self.probability >= 0.75 else sure.GUESS

    @property
    def in_words(self) -> str:
        """Return the reasons as they are written down with a proposal."""
        told = [f"Reckoned at {self.chance} from what is recorded."]
        reasons = (*self.reasons_for, *self.reasons_against)
        return "\n".join([*told, *(f"{capfirst(one.words)}." for one in reasons)])


@dataclass(frozen=True, slots=True)
class MeasureNext:
    """A measurement worth taking: where, with what, and what each outcome would tell."""

    name: str
    in_words: str
    characteristic: Characteristic | None
    instrument: Instrument | None
    outcomes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Held:
    """What people hold the part to be, and how far they are agreed."""

    key: str
    name: str
    standing: str
    is_agreed: bool

    @property
    def in_words(self) -> str:
        return f"{capfirst(self.standing)}: {plurals.one(self.name)}."


@dataclass(frozen=True, slots=True)
class WhatItMayBe:
    """Everything that the sheet of a part says about what it may be."""

    ranking: Ranking
    candidates: tuple[MayBe, ...]
    ruled_out: tuple[MayBe, ...]
    ruled_out_count: int
    next: tuple[MeasureNext, ...]
    remarks: tuple[str, ...]
    known: Known
    held: Held | None = None

    @property
    def sentence(self) -> str:
        """Say what people hold it to be, where they do, and what the record says of itself."""
        if not self.known.evidence:
            told = "Nothing is recorded yet that tells one component from another."
        else:
            told = self.ranking.in_words
        if self.held is None:
            return told
        if self.leader.probability < STANDS_OUT or not self.known.evidence:
            return f"{self.held.in_words} The record alone would not tell it from others."
        if self.leader.key == self.held.key:
            return f"{self.held.in_words} The record bears that out ({self.leader.chance})."
        return f"{self.held.in_words} By the record alone: {told[0].lower()}{told[1:]}"

    @property
    def leader(self) -> MayBe:
        return self.candidates[0]

    def candidate(self, key: str) -> MayBe | None:
        found = (one for one in (*self.candidates, *self.ruled_out) if one.key == key)
        return next(found, None)
