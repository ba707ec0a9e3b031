"""Follow a vehicle or part from owner to owner, and name gaps, overlaps and contradictions."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise

from catalog.reckoning.chronology import Contradiction, Order, Tightened, day_words, tighten
from catalog.reckoning.periods import (
    CERTAINTIES,
    Account,
    Draft,
    ProvenanceEvent,
    draft_periods,
    orders_of,
)
from catalog.reckoning.time_spans import span_words

OWNER, KEEPER = "owner", "keeper"


@dataclass(frozen=True, slots=True)
class Period:
    """Hold how long one party owned or kept it: the events that begin and end it, if known.

    Bounds of the events are as tight as all statements together allow. ``seen`` are sightings
    in between, in order of time.
    """

    party: str
    role: str
    begin: ProvenanceEvent | None
    end: ProvenanceEvent | None
    seen: tuple[ProvenanceEvent, ...] = ()

    @property
    def events(self) -> tuple[ProvenanceEvent, ...]:
        """Return all its events in order."""
        return tuple(one for one in (self.begin, *self.seen, self.end) if one)

    @property
    def first_known(self) -> ProvenanceEvent:
        """Return the first event at which the party is known to have it."""
        return self.events[0]

    @property
    def last_known(self) -> ProvenanceEvent:
        """Return the last event at which the party is known to have it."""
        return self.events[-1]

    @property
    def certainty(self) -> str:
        """Return the certainty of the best supported event that puts the party in the chain."""
        return min((one.certainty for one in self.events), key=CERTAINTIES.index)

    def follows(self, other: "Period") -> bool:
        """Tell whether it came directly from the other party, by one event that names both."""
        return self.begin is not None and other.end is not None and self.begin.key == other.end.key


@dataclass(frozen=True, slots=True)
class Gap:
    """Hold a stretch of which nothing is known, with its least and greatest length in days.

    ``before`` or ``after`` is ``None`` where the chain itself has no known beginning or end;
    a length is ``None`` where the days around it are not known.
    """

    role: str
    before: Period | None
    after: Period | None
    least_days: int | None = None
    greatest_days: int | None = None

    @property
    def earliest(self) -> dt.date | None:
        """Return the first day that can be in it."""
        return self.before.last_known.earliest if self.before else None

    @property
    def latest(self) -> dt.date | None:
        """Return the last day that can be in it."""
        return self.after.first_known.latest if self.after else None

    def in_words(self) -> str:
        """Say between whom it lies and how long it lasted."""
        if not self.before:
            return f"Nothing is known of any {self.role} before {_party(self.after)}."
        if not self.after:
            return f"Nothing is known of any {self.role} after {_party(self.before)}."
        return (
            f"Nothing is known of any {self.role} between {self.before.party} and "
            f"{self.after.party}, for {span_words(self.least_days, self.greatest_days)}."
        )

    def what_would_close_it(self) -> str:
        """Say which record would close the gap."""
        wanted = []
        if self.before and not self.before.end:
            wanted.append(f"to whom {self.before.party} passed it{_since(self.earliest)}")
        if self.before and self.before.end and not self.before.end.to_party:
            wanted.append(f"who had it from {self.before.party}")
        if self.after:
            wanted.append(f"from whom {self.after.party} had it{_until(self.latest)}")
        return f"A record would close this gap that says {', or '.join(wanted)}."


@dataclass(frozen=True, slots=True)
class Overlap:
    """Hold two periods of one role that surely share the days from ``earliest`` to ``latest``."""

    first: Period
    second: Period
    earliest: dt.date
    latest: dt.date

    def in_words(self) -> str:
        """Say who is on record at the same time."""
        return (
            f"{self.first.party} and {self.second.party} are both on record as {self.first.role} "
            f"from {day_words(self.earliest)} to {day_words(self.latest)}."
        )


@dataclass(frozen=True, slots=True)
class Chain:
    """Hold the periods of owners and keepers, earliest first, and all that is doubtful."""

    periods: tuple[Period, ...]
    gaps: tuple[Gap, ...]
    overlaps: tuple[Overlap, ...]
    contradictions: tuple[Contradiction, ...]
    accounts: tuple[Account, ...] = ()
    events: tuple[ProvenanceEvent, ...] = ()

    @property
    def owners(self) -> tuple[Period, ...]:
        """Return the periods of ownership."""
        return tuple(period for period in self.periods if period.role == OWNER)

    @property
    def keepers(self) -> tuple[Period, ...]:
        """Return the periods of keeping."""
        return tuple(period for period in self.periods if period.role == KEEPER)


def chain(events: Iterable[ProvenanceEvent], orders: Iterable[Order] = ()) -> Chain:
    """Return what events, given in the order of the chain, say about owners and keepers.

    A transfer is direct only if one event names both parties. A gap reaches from the last event
    that knows one party to the first that knows the next. An overlap is stated only for days
    that bounds leave no doubt about. ``orders`` are further known orders between events. If
    statements contradict, the events keep the bounds they came with.

    >>> built = ProvenanceEvent("b", dt.date(1899, 1, 1), dt.date(1899, 12, 31), "new", "",
    ...     "built", "", "Tramway")
    >>> bought = ProvenanceEvent("c", dt.date(1957, 1, 1), dt.date(1957, 12, 31), "bought", "",
    ...     "sold", "", "Town")
    >>> chain([built, bought]).gaps[0].least_days
    20820
    """
    drafts = draft_periods(tuple(events))
    tightened = tighten(drafts.in_force, (*orders_of(drafts), *orders))
    owners = _periods(OWNER, drafts.owners, tightened)
    keepers = _periods(KEEPER, drafts.keepers, tightened)
    return Chain(
        periods=(*owners, *keepers),
        gaps=(*_gaps(owners, opens=True), *_gaps(keepers, opens=False)),
        overlaps=(*_overlaps(owners), *_overlaps(keepers)),
        contradictions=tightened.contradictions,
        accounts=drafts.accounts,
        events=tuple(_with_bounds(event, tightened) for event in drafts.in_force),
    )


def _periods(role: str, drafts: Iterable[Draft], tightened: Tightened) -> tuple[Period, ...]:
    periods = [
        Period(
            draft.party,
            role,
            draft.begin and _with_bounds(draft.begin, tightened),
            draft.end and _with_bounds(draft.end, tightened),
            _in_time(_with_bounds(event, tightened) for event in draft.seen),
        )
        for draft in drafts
    ]
    return _placed(periods)


def _with_bounds(event: ProvenanceEvent, tightened: Tightened) -> ProvenanceEvent:
    found = tightened[event.key]
    return replace(event, earliest=found.earliest, latest=found.latest)


def _in_time(events: Iterable[ProvenanceEvent]) -> tuple[ProvenanceEvent, ...]:
    return tuple(sorted(events, key=lambda one: one.earliest or one.latest or dt.date.min))


def _placed(periods: Iterable[Period]) -> tuple[Period, ...]:
    """Put a period that was only seen where its days belong; leave the given order otherwise."""
    placed: list[Period] = []
    for period in periods:
        day = period.first_known.earliest
        later = [
            place
            for place, other in enumerate(placed)
            if not period.begin and not period.end and day and _starts_after(other, day)
        ]
        placed.insert(later[0] if later else len(placed), period)
    return tuple(placed)


def _starts_after(period: Period, day: dt.date) -> bool:
    return bool(period.first_known.earliest and period.first_known.earliest > day)


def _gaps(periods: Sequence[Period], *, opens: bool) -> list[Gap]:
    """List the gaps; with ``opens``, an unknown beginning or end of the chain counts as one."""
    found = [_gap(one, other) for one, other in pairwise(periods) if not other.follows(one)]
    gaps = [gap for gap in found if gap.greatest_days is None or gap.greatest_days > 0]
    if periods and opens and periods[0].begin is None:
        gaps.insert(0, Gap(periods[0].role, None, periods[0]))
    last = periods[-1].end if periods else None
    if last and opens and last.kind != "scrapped":
        gaps.append(Gap(periods[-1].role, periods[-1], None))
    return gaps


def _gap(before: Period, after: Period) -> Gap:
    known, next_known = before.last_known, after.first_known
    least = greatest = None
    if known.latest and next_known.earliest:
        least = max(0, (next_known.earliest - known.latest).days)
    if known.earliest and next_known.latest:
        greatest = (next_known.latest - known.earliest).days
    return Gap(before.role, before, after, least, greatest)


def _overlaps(periods: Sequence[Period]) -> list[Overlap]:
    # Asking every pair for its events again would cost most of the time of a long chain.
    known = [(one, one.first_known.latest, one.last_known.earliest) for one in periods]
    overlaps = []
    for (one, one_start, one_end), (other, other_start, other_end) in combinations(known, 2):
        if not (one_start and one_end and other_start and other_end):
            continue
        start, end = max(one_start, other_start), min(one_end, other_end)
        if start < end:
            overlaps.append(Overlap(one, other, start, end))
    return overlaps


def _party(period: Period | None) -> str:
    return period.party if period else "anyone"


def _since(day: dt.date | None) -> str:
    return f" after {day_words(day)}" if day else ""


def _until(day: dt.date | None) -> str:
    return f" by {day_words(day)}" if day else ""
