"""Draw the periods of owners and keepers out of the events of a chain."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from catalog.reckoning.chronology import DatedEvent, Order

# Ownership and custody are told apart as in CIDOC CRM (E8 Acquisition, E10 Transfer of Custody).
OWNERSHIP = frozenset({"built", "sold", "transferred", "given", "acquired"})
CUSTODY = frozenset({"lent", "moved"})
CERTAINTIES = ("documented", "probable", "supposed")


@dataclass(frozen=True, slots=True)
class ProvenanceEvent(DatedEvent):
    """Hold one event of a chain: who passed a vehicle or part to whom, and who kept it.

    ``kind`` is ``built``, ``sold``, ``transferred``, ``given`` or ``acquired`` where the owner
    changes, ``lent`` or ``moved`` where the keeper changes, ``scrapped`` where the chain ends;
    at any other kind, such as ``listed``, the parties named are only seen with it. A party is
    a name that is used for no other party; an empty name is not known. ``when`` is the date in
    words.
    """

    kind: str = "listed"
    from_party: str = ""
    to_party: str = ""
    keeper: str = ""
    certainty: str = "documented"
    when: str = ""
    is_preferred: bool = False


@dataclass(slots=True)
class Draft:
    """Gather the events of one period; not frozen, since its end is met after its begin."""

    party: str
    begin: ProvenanceEvent | None = None
    end: ProvenanceEvent | None = None
    seen: list[ProvenanceEvent] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Account:
    """Tell that a second source gives ``second`` for the passage that ``first`` tells of too."""

    first: ProvenanceEvent
    second: ProvenanceEvent


@dataclass(frozen=True, slots=True)
class Drafts:
    """Hold the drafted periods of owners and keepers, and passages told of more than once.

    ``in_force`` are the events that are reasoned with: all but those set aside because another
    account of the same passage is preferred.
    """

    owners: tuple[Draft, ...]
    keepers: tuple[Draft, ...]
    accounts: tuple[Account, ...]
    in_force: tuple[ProvenanceEvent, ...]


def draft_periods(events: Sequence[ProvenanceEvent]) -> Drafts:
    """Follow owners and keepers through the events in the order given.

    A period ends with the event that names its party as the one it came from; where no event
    does, its end is not known. Two events of one kind between the same two parties, one right
    after the other, are two accounts of one passage.

    >>> built = ProvenanceEvent("b", None, None, kind="built", to_party="Tramway")
    >>> sold = ProvenanceEvent("s", None, None, kind="sold", from_party="Tramway", to_party="Mill")
    >>> [(one.party, one.end and one.end.key) for one in draft_periods([built, sold]).owners]
    [('Tramway', 's'), ('Mill', None)]
    """
    told, accounts = _told_once(events)
    owners = _followed(_ownership(told), keeps_unknown_source=True)
    keepers = _followed(_custody(told), keeps_unknown_source=False)
    for event in told:
        if event.kind not in OWNERSHIP | CUSTODY | {"scrapped"}:
            _see(owners, event.to_party or event.from_party, event)
            _see(keepers, event.keeper, event)
    kept = {event.key for event in told}
    in_force = tuple(one for one in events if one.key in kept or _counts(one, accounts))
    return Drafts(tuple(owners), tuple(keepers), accounts, in_force)


def _counts(event: ProvenanceEvent, accounts: Iterable[Account]) -> bool:
    """Tell whether an account still counts beside another, neither being preferred."""
    pairs = [(one.first, one.second) for one in accounts if event in (one.first, one.second)]
    return not any(first.is_preferred or second.is_preferred for first, second in pairs)


def orders_of(drafts: Drafts) -> Iterator[Order]:
    """Yield the orders that every chain keeps: built first, had before passed on, scrapped last.

    Two accounts of one passage are held to the same day, unless one of them is preferred.
    """
    for draft in (*drafts.owners, *drafts.keepers):
        yield from _orders_within(draft)
    for account in drafts.accounts:
        first, second = account.first, account.second
        if first in drafts.in_force and second in drafts.in_force:
            words = "both tell of the same event"
            yield Order(first.key, second.key, label=words)
            yield Order(second.key, first.key, label=words)
    for event in drafts.in_force:
        yield from _orders_of_ends(event, drafts.in_force)


def _orders_of_ends(event: ProvenanceEvent, events: Iterable[ProvenanceEvent]) -> Iterator[Order]:
    for other in events:
        if event.kind == "built" != other.kind:
            yield Order(event.key, other.key, label="nothing happened to it before it was built")
        if event.kind == "scrapped" != other.kind:
            yield Order(other.key, event.key, label="nothing happened to it after it was scrapped")


def _orders_within(draft: Draft) -> Iterator[Order]:
    begin, end, party = draft.begin, draft.end, draft.party
    if begin and end:
        yield Order(begin.key, end.key, label=f"{party} had it before passing it on")
    for seen in draft.seen:
        if begin:
            yield Order(
                begin.key, seen.key, label=f"{party} cannot be seen with it before getting it"
            )
        if end:
            yield Order(
                seen.key, end.key, label=f"{party} cannot be seen with it after passing it on"
            )


def _told_once(
    events: Iterable[ProvenanceEvent],
) -> tuple[list[ProvenanceEvent], tuple[Account, ...]]:
    told: list[ProvenanceEvent] = []
    accounts = []
    for event in events:
        before = next((one for one in reversed(told) if one.kind in OWNERSHIP), None)
        if before is None or not _is_same_passage(before, event):
            told.append(event)
            continue
        accounts.append(Account(before, event))
        if event.is_preferred and not before.is_preferred:
            told[told.index(before)] = event
    return told, tuple(accounts)


def _is_same_passage(one: ProvenanceEvent, other: ProvenanceEvent) -> bool:
    is_named = one.kind == "built" or (one.from_party and one.to_party)
    parties = (one.kind, one.from_party, one.to_party)
    return bool(is_named) and parties == (other.kind, other.from_party, other.to_party)


Passage = tuple[ProvenanceEvent, str, str]


def _ownership(events: Iterable[ProvenanceEvent]) -> Iterator[Passage]:
    """Yield who passed ownership to whom; the builder of a new vehicle passes nothing on."""
    for event in events:
        if event.kind == "built":
            yield event, "", event.to_party or event.from_party
        elif event.kind in OWNERSHIP:
            yield event, event.from_party, event.to_party
        elif event.kind == "scrapped":
            yield event, event.from_party, ""


def _custody(events: Iterable[ProvenanceEvent]) -> Iterator[Passage]:
    for event in events:
        if event.kind in CUSTODY:
            yield event, event.from_party, event.keeper or event.to_party
        elif event.kind in OWNERSHIP and event.keeper:
            yield event, event.from_party, event.keeper


def _followed(passages: Iterable[Passage], *, keeps_unknown_source: bool) -> list[Draft]:
    drafts: list[Draft] = []
    for event, giver, taker in passages:
        held = _open_period(drafts, giver)
        if held:
            held.end = event
        elif giver and keeps_unknown_source:
            drafts.append(Draft(giver, end=event))
        if taker:
            drafts.append(Draft(taker, begin=event))
    return drafts


def _open_period(drafts: Iterable[Draft], party: str) -> Draft | None:
    return next((one for one in drafts if party and one.party == party and not one.end), None)


def _see(drafts: list[Draft], party: str, event: ProvenanceEvent) -> None:
    """Add a sighting to the period of the party that its days allow, or else to its last."""
    own = [draft for draft in drafts if draft.party == party]
    if not party:
        return
    if not own:
        drafts.append(Draft(party, seen=[event]))
        return
    next((one for one in own if _allows(one, event)), own[-1]).seen.append(event)


def _allows(draft: Draft, event: ProvenanceEvent) -> bool:
    begin = draft.begin.earliest if draft.begin else None
    end = draft.end.latest if draft.end else None
    too_early = begin and event.latest and event.latest < begin
    too_late = end and event.earliest and event.earliest > end
    return not too_early and not too_late
