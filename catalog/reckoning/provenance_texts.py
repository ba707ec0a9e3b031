"""Write a chain of owners in the published punctuation of museum provenance."""

from collections.abc import Collection
from dataclasses import dataclass
from itertools import pairwise

from catalog.reckoning.chains import Chain, Period
from catalog.reckoning.chronology import day_words
from catalog.reckoning.periods import ProvenanceEvent

_HOW = {
    "built": "new",
    "sold": "bought",
    "given": "by gift",
    "transferred": "by transfer",
    "acquired": "acquired",
    "lent": "on loan",
    "moved": "brought there",
}
_DOUBT = {"documented": "", "probable": "probably ", "supposed": "possibly "}


@dataclass(frozen=True, slots=True)
class Entry:
    """Hold one owner as written, the mark that follows, and the sources to be noted with it."""

    words: str
    mark: str
    sources: tuple[str, ...]


def provenance_text(chain: Chain, *, dealers: Collection[str] = ()) -> str:
    """Write the owners in one paragraph, earliest first.

    A semicolon follows an owner who passed it directly to the next; a period, one for whom
    that did not happen or is not known. Doubt is said with “probably” or “possibly”, and
    dealers stand in parentheses. Source: N. H. Yeide, K. Akinsha and A. L. Walsh, *The AAM Guide
    to Provenance Research*, American Association of Museums, 2001, as museums quote it.

    >>> from catalog.reckoning.chains import chain as follow
    >>> built = ProvenanceEvent("b", None, None, "", "", "built", "", "Tramway", when="1899")
    >>> sold = ProvenanceEvent("s", None, None, "", "", "sold", "Tramway", "Mill", when="1931")
    >>> provenance_text(follow([built, sold]))
    'Tramway, new 1899; Mill, bought 1931.'
    """
    return " ".join(
        entry.words + entry.mark for entry in provenance_entries(chain, dealers=dealers)
    )


def provenance_entries(chain: Chain, *, dealers: Collection[str] = ()) -> tuple[Entry, ...]:
    """Return the owners one by one, so that notes can be set between words and marks."""
    owners = chain.owners
    marks = [";" if later.follows(owner) else "." for owner, later in pairwise(owners)]
    entries = []
    starts_sentence = True
    for owner, mark in zip(owners, [*marks, "."], strict=bool(owners)):
        words = _words(owner, is_dealer=owner.party in dealers, tells_end=mark == ".")
        entries.append(Entry(_capital(words) if starts_sentence else words, mark, _sources(owner)))
        starts_sentence = mark == "."
    return tuple(entries)


def _words(owner: Period, *, is_dealer: bool, tells_end: bool) -> str:
    name = f"({owner.party})" if is_dealer else owner.party
    parts = [_DOUBT[owner.certainty] + name]
    if owner.begin:
        # A party surely there may still have come by it in a way that is only supposed.
        is_said = owner.begin.certainty == owner.certainty
        doubt = "" if is_said else _DOUBT[owner.begin.certainty]
        parts.append(f"{doubt}{_HOW[owner.begin.kind]} {_when(owner.begin)}")
    elif owner.seen:
        parts.append(f"by {_when(owner.seen[0])}")
    if tells_end and owner.end:
        parts.append(f"until {_when(owner.end)}")
    elif tells_end and owner.seen and owner.begin:
        parts.append(f"last known {_when(owner.seen[-1])}")
    return ", ".join(parts)


def _when(event: ProvenanceEvent) -> str:
    if event.when or not (event.earliest or event.latest):
        return event.when or "at an unknown date"
    if event.earliest == event.latest:
        return day_words(event.earliest)
    if not event.earliest:
        return f"{day_words(event.latest)} or earlier"
    if not event.latest:
        return f"{day_words(event.earliest)} or later"
    return f"between {day_words(event.earliest)} and {day_words(event.latest)}"


def _sources(owner: Period) -> tuple[str, ...]:
    return tuple(dict.fromkeys(event.source for event in owner.events if event.source))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
