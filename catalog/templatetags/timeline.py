"""Owners and keepers drawn over the years, as bars that fade where their ends are uncertain."""

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django import template
from django.utils import timezone

from catalog.reckoning.chains import Chain, Gap, Period
from catalog.reckoning.periods import ProvenanceEvent

register = template.Library()

# An end of which no bound is known fades over this share of the whole drawing.
UNKNOWN_SHARE = 0.06
# The first and last years stand this share of all years from the edges, lest marks be cut off.
EDGE = 40
# More labels than these would run into one another on a phone.
MOST_LABELS = 7
SLICES = 8
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of a row, in percent: ``solid``, ``in`` and ``out`` for fades, or ``gap``."""

    look: str
    x: str
    width: str


@dataclass(frozen=True, slots=True)
class Tick:
    """An event on a row, filled where a source stands behind it."""

    x: str
    is_cited: bool


@dataclass(frozen=True, slots=True)
class Row:
    """One owner, keeper or gap, drawn and in words."""

    label: str
    words: str
    stretches: tuple[Stretch, ...]
    ticks: tuple[Tick, ...]


@dataclass(frozen=True, slots=True)
class Scale:
    """The days from the left edge to the right edge."""

    start: dt.date
    end: dt.date

    def at(self, day: dt.date) -> float:
        return (day - self.start).days / max(1, (self.end - self.start).days)

    def stretch(self, look: str, left: float, right: float) -> Stretch:
        left, right = max(0.0, left), min(1.0, right)
        return Stretch(look, f"{left:.2%}", f"{max(0.0, right - left):.2%}")


@register.inclusion_tag("components/timeline_chart.html")
def timeline_chart(chain: Chain, *, today: dt.date | None = None) -> dict[str, Any]:
    """Draw the chain; nothing is drawn where no day at all is known."""
    now = today or timezone.localdate()
    days = [day for event in chain.events for day in (event.earliest, event.latest) if day]
    if not days or not chain.periods:
        return {"rows": ()}
    goes_on = any(_goes_on(period, chain) for period in chain.periods)
    first, last = min(days), max([*days, now] if goes_on else days)
    scale = _scale(first.year, last.year + 1)
    return {"rows": tuple(_rows(chain, scale, now)), "years": tuple(_years(scale))}


def _scale(first: int, last: int) -> Scale:
    margin = 1 + (last - first) // EDGE
    begin, end = max(dt.MINYEAR, first - margin), min(dt.MAXYEAR, last + margin)
    return Scale(dt.date(begin, 1, 1), dt.date(end, 1, 1))


@register.inclusion_tag("print/_timeline.html")
def timeline_on_paper(chain: Chain, *, today: dt.date | None = None) -> dict[str, Any]:
    """Draw the same for paper, where fades are made of slices: color gradients print unevenly."""
    drawn = timeline_chart(chain, today=today)
    rows = [
        (row, [one for piece in row.stretches for one in _slices(piece)]) for row in drawn["rows"]
    ]
    return {**drawn, "rows": rows}


def _slices(stretch: Stretch) -> Iterator[tuple[Stretch, str]]:
    """Yield pieces of a stretch with the strength of the ink of each."""
    if stretch.look not in ("in", "out"):
        yield stretch, "1"
        return
    left, width = float(stretch.x.rstrip("%")), float(stretch.width.rstrip("%")) / SLICES
    for number in range(SLICES):
        shade = (number + 0.5) / SLICES
        strength = shade if stretch.look == "in" else 1 - shade
        # A hair wider than its place, so that no white line shows between two slices.
        piece = Stretch("solid", f"{left + number * width:.3f}%", f"{width + 0.05:.3f}%")
        yield piece, f"{strength:.2f}"


def _rows(chain: Chain, scale: Scale, now: dt.date) -> Iterator[Row]:
    for role in (chain.owners, chain.keepers):
        gaps = {id(gap.after): gap for gap in chain.gaps if gap.after in role}
        for period in role:
            gap = gaps.get(id(period))
            if gap:
                yield _gap_row(gap, scale)
            yield _period_row(period, scale, now if _goes_on(period, chain) else None)


def _goes_on(period: Period, chain: Chain) -> bool:
    """Tell whether the last owner or keeper has it still, as far as anybody knows."""
    own = chain.owners if period in chain.owners else chain.keepers
    return period.end is None and period is own[-1] and period.begin is not None


def _period_row(period: Period, scale: Scale, now: dt.date | None) -> Row:
    left = _ends(period.begin, period.first_known, scale, before=True)
    right = (scale.at(now), scale.at(now)) if now else None
    right = right or _ends(period.end, period.last_known, scale, before=False)
    ticks = tuple(_tick(event, scale) for event in period.events if event.earliest or event.latest)
    return Row(
        label=period.party,
        words=f"{period.role}, {_since(period)}, {_until(period, now)}; {period.certainty}",
        stretches=tuple(_bar(left, right, scale)),
        ticks=ticks,
    )


def _bar(left: tuple[float, float], right: tuple[float, float], scale: Scale) -> Iterator[Stretch]:
    """Draw the sure middle solid; where both ends reach into one another, nothing is sure."""
    inner = (left[1] + right[0]) / 2
    begin, end = (left[1], right[0]) if left[1] <= right[0] else (inner, inner)
    if begin > left[0]:
        yield scale.stretch("in", left[0], begin)
    if end > begin:
        yield scale.stretch("solid", begin, end)
    if right[1] > end:
        yield scale.stretch("out", end, right[1])


def _ends(
    event: ProvenanceEvent | None, known: ProvenanceEvent, scale: Scale, *, before: bool
) -> tuple[float, float]:
    """Return within which shares of the drawing an end lies."""
    one = event or known
    first, last = one.earliest or one.latest, one.latest or one.earliest
    if first is None or last is None:
        return (0.0, UNKNOWN_SHARE) if before else (1 - UNKNOWN_SHARE, 1.0)
    left = scale.at(first) - (0 if one.earliest else UNKNOWN_SHARE)
    right = scale.at(last) + (0 if one.latest else UNKNOWN_SHARE)
    if event is None:
        return (left - UNKNOWN_SHARE, right) if before else (left, right + UNKNOWN_SHARE)
    return (left, right)


def _gap_row(gap: Gap, scale: Scale) -> Row:
    left = scale.at(gap.earliest) if gap.earliest else 0.0
    right = scale.at(gap.latest) if gap.latest else 1.0
    stretches = (scale.stretch("gap", left, right),) if right > left else ()
    return Row("not known", gap.in_words(), stretches, ())


def _tick(event: ProvenanceEvent, scale: Scale) -> Tick:
    days = [scale.at(day) for day in (event.earliest, event.latest) if day]
    return Tick(f"{sum(days) / len(days):.2%}", bool(event.source))


def _since(period: Period) -> str:
    if period.begin:
        return f"since {period.begin.when or 'an unknown day'}"
    return f"known from {period.first_known.when or 'an unknown day'}"


def _until(period: Period, now: dt.date | None) -> str:
    if period.end:
        return f"until {period.end.when or 'an unknown day'}"
    if now:
        return "to this day as far as is known"
    return f"last known {period.last_known.when or 'on an unknown day'}"


def _years(scale: Scale) -> Sequence[tuple[str, int]]:
    first, last = scale.start.year, scale.end.year
    step = next((step for step in STEPS if (last - first) / step <= MOST_LABELS), STEPS[-1])
    years: Iterable[int] = range(-(-first // step) * step, last, step)
    # A label at the very edge would be cut off.
    shares = ((year, scale.at(dt.date(year, 1, 1))) for year in years if year > 0)
    return [(f"{share:.2%}", year) for year, share in shares if 0.03 <= share <= 0.97]
