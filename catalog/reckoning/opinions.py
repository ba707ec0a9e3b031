"""Where the opinions of several people on one piece stand: proposed, agreed or disputed.

What counts, common practice and no source: everybody's latest word, two people at the least
for an agreement, and one reasoned objection for a dispute, however many are of another mind.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Status(StrEnum):
    """How far people are agreed on what a piece is."""

    UNIDENTIFIED = "unidentified"
    PROPOSED = "proposed"
    AGREED = "agreed"
    DISPUTED = "disputed"


@dataclass(frozen=True, slots=True)
class Word:
    """What one person said of another's claim, and when."""

    by: int
    agrees: bool
    at: datetime


@dataclass(frozen=True, slots=True)
class Claim:
    """What one person takes a piece to be.

    ``kinds`` is the component followed by the broader ones it is a kind of; without a
    ``vehicle_class`` the claim leaves open which class the piece is of.
    """

    key: int
    kinds: tuple[int, ...]
    vehicle_class: int | None
    by: int
    at: datetime
    confidence: int = 0
    words: tuple[Word, ...] = ()

    def implies(self, other: "Claim") -> bool:
        """Say whether the ``other`` claim holds wherever this one does."""
        same_class = other.vehicle_class in (None, self.vehicle_class)
        return other.kinds[0] in self.kinds and same_class

    def contradicts(self, other: "Claim") -> bool:
        """Say whether the two cannot both hold."""
        apart = self.kinds[0] not in other.kinds and other.kinds[0] not in self.kinds
        classes = {self.vehicle_class, other.vehicle_class} - {None}
        return apart or len(classes) == 2


@dataclass(frozen=True, slots=True)
class Standing:
    """The status of a piece, the claim that leads, and who is for it and against it."""

    status: Status
    leading: int | None = None
    supporters: frozenset[int] = frozenset()
    objectors: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class _Voice:
    """One person's word on one claim; ``is_own`` for the claim that they made themselves."""

    claim: Claim
    by: int
    agrees: bool
    at: datetime
    is_own: bool


def standing(claims: Iterable[Claim]) -> Standing:
    """Return where the opinions on one piece stand.

    The leading claim has the most people behind it; then the fewest against it, the narrowest
    kind, the greater confidence, and the later date decide. Whoever claims a narrower kind is
    also for the broader one. It is agreed when a second person has agreed, and nobody's latest
    word is against it; quietly claiming the same is support, not yet agreement.

    >>> from datetime import UTC, datetime
    >>> day = datetime(2026, 4, 17, tzinfo=UTC)
    >>> claim = Claim(1, kinds=(7,), vehicle_class=None, by=1, at=day)
    >>> standing([claim]).status.value
    'proposed'
    >>> agreed = Claim(1, (7,), None, 1, day, words=(Word(by=2, agrees=True, at=day),))
    >>> standing([agreed]).status.value
    'agreed'
    """
    claims = tuple(claims)
    voices = _latest_voices(claims)
    supported = [claim for claim in claims if _supporters(claim, voices)]
    if not supported:
        return Standing(Status.UNIDENTIFIED)
    leading = max(supported, key=lambda claim: _weight(claim, voices))
    supporters, objectors = _supporters(leading, voices), _objectors(leading, voices)
    return Standing(_status(leading, voices), leading.key, supporters, objectors)


def _latest_voices(claims: tuple[Claim, ...]) -> tuple[_Voice, ...]:
    """Return every word that its speaker has not contradicted since."""
    voices = [_Voice(claim, claim.by, True, claim.at, is_own=True) for claim in claims]
    voices += [
        _Voice(claim, word.by, word.agrees, word.at, is_own=False)
        for claim in claims
        for word in claim.words
        if word.by != claim.by
    ]
    return tuple(
        voice for voice in voices if not any(_takes_back(later, voice) for later in voices)
    )


def _takes_back(later: _Voice, former: _Voice) -> bool:
    if later.by != former.by or later.at <= former.at:
        return False
    if former.agrees:
        return _is_against(later, former.claim)
    return later.agrees and later.claim.implies(former.claim)


def _is_against(voice: _Voice, claim: Claim) -> bool:
    if voice.agrees:
        return voice.claim.contradicts(claim)
    return claim.implies(voice.claim)


def _supporters(claim: Claim, voices: tuple[_Voice, ...]) -> frozenset[int]:
    return frozenset(voice.by for voice in voices if voice.agrees and voice.claim.implies(claim))


def _objectors(claim: Claim, voices: tuple[_Voice, ...]) -> frozenset[int]:
    return frozenset(voice.by for voice in voices if _is_against(voice, claim))


def _status(claim: Claim, voices: tuple[_Voice, ...]) -> Status:
    if _objectors(claim, voices):
        return Status.DISPUTED
    agreed = any(
        voice.agrees and not voice.is_own and voice.claim.implies(claim) for voice in voices
    )
    both = len(_supporters(claim, voices)) >= 2
    return Status.AGREED if agreed and both else Status.PROPOSED


def _weight(
    claim: Claim, voices: tuple[_Voice, ...]
) -> tuple[int, int, int, bool, int, datetime, int]:
    return (
        len(_supporters(claim, voices)),
        -len(_objectors(claim, voices)),
        len(claim.kinds),
        claim.vehicle_class is not None,
        claim.confidence,
        claim.at,
        claim.key,
    )
