"""Under which name a party of a provenance is told: its own, or none for visitors."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import ProvenanceEvent, VehicleClass
from catalog.queries.event_facts import EventFact, PartyFact

# Who gave a piece to the group is private even where a published source speaks of the gift.
GIFTS = (ProvenanceEvent.Kind.GIVEN, ProvenanceEvent.Kind.ACQUIRED, ProvenanceEvent.Kind.LENT)


@dataclass(frozen=True, slots=True)
class PartyNames:
    """The names of parties by key, no two of them alike, and which of them may be public."""

    names: Mapping[int, str]
    public: frozenset[int]
    for_visitor: bool

    def __getitem__(self, party: PartyFact) -> str:
        return self.names[party.pk]

    def all_public(self, event: EventFact) -> bool:
        """Tell whether every party of the event may be named to visitors."""
        return all(party.pk in self.public for party in event.parties)


def named_for_members(events: Iterable[EventFact]) -> PartyNames:
    """Name every party; two of one name are told apart by a number."""
    parties = _all_parties(events)
    names = _told_apart({key: party.name for key, party in parties.items()})
    return PartyNames(names, frozenset(parties), for_visitor=False)


def named_for_visitors(events: Iterable[EventFact]) -> PartyNames:
    """Name the parties that are public or in a published source; the others are owners only.

    A donor is named only by their own leave, whatever was published.
    """
    events = list(events)
    parties = _all_parties(events)
    public = {key for key, party in parties.items() if party.is_name_public}
    donors = {one.from_party.pk for one in events if one.kind in GIFTS and one.from_party}
    published = {party.pk for event in events if _is_published(event) for party in event.parties}
    public |= published - donors
    names = {
        key: party.name if key in public else _unnamed(party) for key, party in parties.items()
    }
    return PartyNames(_told_apart(names), frozenset(public), for_visitor=True)


def builder_named(built_to: VehicleClass, *, for_visitor: bool) -> str:
    """Return the builder of a class, to visitors only one that may be named."""
    builder = built_to.builder
    return builder.name if builder and (builder.is_name_public or not for_visitor) else ""


def _all_parties(events: Iterable[EventFact]) -> dict[int, PartyFact]:
    return {party.pk: party for event in events for party in event.parties}


def _is_published(event: EventFact) -> bool:
    return any(source.is_published for source in event.sources)


def _unnamed(party: PartyFact) -> str:
    return "a private owner" if party.is_person else "an organization"


def _told_apart(names: Mapping[int, str]) -> dict[int, str]:
    seen: dict[str, int] = {}
    told = {}
    for key, name in names.items():
        seen[name] = seen.get(name, 0) + 1
        told[key] = name if seen[name] == 1 else f"{name} ({seen[name]})"
    return told
