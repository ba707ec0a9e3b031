"""The provenance of a record for paper: each owner, statement and doubt with numbered notes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import Citation, Part, Vehicle
from catalog.queries.provenance import UNPUBLISHED, Provenance, Told, provenance_of
from catalog.queries.source_notes import SourceNotes
from catalog.reckoning.chronology import Contradiction


@dataclass(frozen=True, slots=True)
class Noted:
    """Words with the numbers of their notes; ``mark`` closes them in the line of owners."""

    words: str
    notes: tuple[int, ...]
    mark: str = ""


@dataclass(frozen=True, slots=True)
class NotedEvent:
    """One statement of the chain, with the numbers of its notes."""

    told: Told
    notes: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class NotedStory:
    """The chain of a vehicle or part, and all that is doubtful about it."""

    provenance: Provenance
    line: tuple[Noted, ...]
    events: tuple[NotedEvent, ...]
    contradictions: tuple[tuple[Noted, ...], ...]
    disagreements: tuple[tuple[NotedEvent, NotedEvent], ...]

    @property
    def has_doubts(self) -> bool:
        told = self.provenance
        return bool(self.contradictions or self.disagreements or told.gaps or told.overlaps)


def noted_story(record: Vehicle | Part, notes: SourceNotes, *, for_visitor: bool) -> NotedStory:
    """Return the story of a record; its sources are numbered on in ``notes``."""
    provenance = provenance_of(record, for_visitor=for_visitor)
    told = {one.key: one for one in provenance.told}
    line = _line(provenance, notes)
    return NotedStory(
        provenance=provenance,
        line=line,
        events=_events(provenance.told, notes),
        contradictions=tuple(_clash(one, told, notes) for one in provenance.chain.contradictions),
        disagreements=tuple(
            (_noted(pair.first, notes), _noted(pair.second, notes))
            for pair in provenance.disagreements
        ),
    )


def cited(citations: Iterable[Citation], *, for_visitor: bool) -> tuple[str, ...]:
    """Return the sources of citations in words, unpublished ones unnamed for visitors."""
    kept = [one for one in citations if not one.source.is_withdrawn]
    told = (str(one) if one.source.is_published or not for_visitor else UNPUBLISHED for one in kept)
    return tuple(dict.fromkeys(told))


def _line(provenance: Provenance, notes: SourceNotes) -> tuple[Noted, ...]:
    """Give each source behind an owner its own number; the line itself gives them together."""
    single = {"; ".join(one.sources): one.sources for one in provenance.told}
    together = provenance.notes
    return tuple(
        Noted(
            entry.words,
            notes.numbers(
                source
                for number in entry.notes
                for source in single.get(together[number - 1], (together[number - 1],))
            ),
            entry.mark,
        )
        for entry in provenance.entries
    )


def _events(told: Iterable[Told], notes: SourceNotes) -> tuple[NotedEvent, ...]:
    return tuple(_noted(one, notes) for one in told)


def _noted(told: Told, notes: SourceNotes) -> NotedEvent:
    return NotedEvent(told, notes.numbers(told.sources))


def _clash(
    contradiction: Contradiction, told: Mapping[str, Told], notes: SourceNotes
) -> tuple[Noted, ...]:
    return tuple(
        Noted(
            statement.words,
            notes.numbers(
                source for key in statement.keys if key in told for source in told[key].sources
            )
            if statement.source
            else (),
        )
        for statement in contradiction.statements
    )
