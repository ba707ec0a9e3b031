"""Which reading would settle most of what a piece may go into or together with."""

from collections import Counter
from dataclasses import dataclass

from django.db.models import Q
from django.urls import reverse
from django.utils.http import urlencode

from catalog.models import Characteristic
from catalog.queries.fits import Fits
from catalog.reckoning.conformance import Fit
from catalog.reckoning.plurals import counted, listed

SUGGESTED = 4


@dataclass(frozen=True, slots=True)
class Settling:
    """A reading worth taking: of which part, where on it, and what waits for it."""

    piece: int
    part: int
    label: str
    characteristic: Characteristic
    places: int
    mates: int
    again: bool = False

    @property
    def in_words(self) -> str:
        """Say what to measure, and what it would decide."""
        what = f"Measure the {self.characteristic} of {self.label}"
        if self.again:
            return f"{what} again: its readings disagree, and what follows rests on them."
        if self.part != self.piece:
            return f"{what}: it decides whether the two go together."
        waiting = [
            counted(count, noun)
            for count, noun in ((self.places, "open position"), (self.mates, "part"))
            if count
        ]
        return f"{what}: {listed(waiting)} wait{'s' * (self.places + self.mates == 1)} for it."

    @property
    def measure_url(self) -> str:
        """Return where to write the reading down, and to come back from."""
        which: dict[str, str | int] = {
            "at": self.characteristic.pk,
            "name": self.characteristic.name,
            "to_fit": self.piece,
        }
        return f"{reverse('part-measure', args=[self.part])}?{urlencode(which)}"


def settling(fits: Fits) -> tuple[Settling, ...]:
    """Return the readings that verdicts wait for, those first for which most of them wait.

    Before them comes what was measured twice and disagrees: no verdict is better than that.
    """
    if fits.piece is None or fits.positions is None:
        return ()
    own, own_label = fits.piece.part.pk, fits.piece.part.label
    names = _names_for_places(fits)
    mates = [pair for group in fits.mates for pair in group.unknown]
    wanting = Counter(one for pair in mates for one in pair.wanting)
    again = fits.piece.readings.disagreeing.get(own, ())
    if not (names or wanting or again):
        return ()
    labels = {own: own_label, **{pair.mate.pk: pair.mate.label for pair in mates}}
    kinds = fits.piece.kinds
    known = _characteristics(kinds, names, {*again, *(key for _, key in wanting)})
    for_places = (one for one in known.values() if one.component_id in kinds and one.name in names)
    asked = {*wanting, *((own, key) for key in again), *((own, one.pk) for one in for_places)}
    found = [
        Settling(
            own,
            part,
            labels[part],
            known[key],
            names[known[key].name] if part == own else 0,
            wanting[part, key],
            again=part == own and key in again,
        )
        for part, key in asked
    ]
    return tuple(sorted(found, key=_order)[:SUGGESTED])


def _order(one: Settling) -> tuple[object, ...]:
    return (
        not one.again,
        one.part != one.piece,
        -one.places - one.mates,
        one.characteristic.sequence,
        one.part,
    )


def _names_for_places(fits: Fits) -> Counter[str]:
    """Return how many open positions wait for each characteristic of the piece itself."""
    waiting: Counter[str] = Counter()
    for group in fits.positions.groups if fits.positions else ():
        if group.verdict.fit == Fit.UNKNOWN:
            waiting.update(dict.fromkeys(group.verdict.missing, len(group.places)))
    return waiting


def _characteristics(
    kinds: tuple[int, ...], names: Counter[str], keys: set[int]
) -> dict[int, Characteristic]:
    own = Q(component__in=kinds, name__in=list(names))
    rows = Characteristic.objects.filter(own | Q(pk__in=keys)).select_related("picture")
    return {row.pk: row for row in rows}
