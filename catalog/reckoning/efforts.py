"""The hours and the money that work takes, each marked as estimated or only assumed."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from catalog.reckoning.planning.facts import TENTHS

# What nobody has estimated counts as a day of repair, or as three days of making, so that a plan
# takes neither for nothing (common practice, no source).
HOURS_OF_A_REPAIR = Decimal(8)
HOURS_OF_A_MAKING = Decimal(24)


@dataclass(frozen=True, slots=True)
class Effort:
    """Hold what one piece of work takes, in tenths of an hour and in hundredths of money.

    >>> Effort(185, is_estimated=True).words
    '18.5 hours'
    """

    tenths: int
    is_estimated: bool
    cents: int | None = None

    @property
    def hours(self) -> Decimal:
        """Return the hours."""
        return Decimal(self.tenths) / TENTHS

    @property
    def money(self) -> Decimal | None:
        """Return the money, where somebody has given any."""
        return None if self.cents is None else Decimal(self.cents) / 100

    @property
    def words(self) -> str:
        """Say the hours, and whether anybody has estimated them."""
        doubt = "" if self.is_estimated else ", which nobody has estimated"
        return f"{hours_in_words(self.tenths)}{doubt}"


def effort_of(hours: Decimal | None, money: Decimal | None, *, unless_known: Decimal) -> Effort:
    """Return the effort of work from what is recorded, or the hours to assume instead.

    >>> effort_of(None, Decimal("12.5"), unless_known=HOURS_OF_A_REPAIR)
    Effort(tenths=80, is_estimated=False, cents=1250)
    """
    return Effort(
        round((unless_known if hours is None else hours) * TENTHS),
        hours is not None,
        None if money is None else round(money * 100),
    )


@dataclass(frozen=True, slots=True)
class EffortSum:
    """Hold what several pieces of work come to.

    ``assumed`` counts those whose hours nobody has estimated, ``unpriced`` those whose money.

    >>> sum_of([Effort(180, True, 1250), Effort(240, False)]).words
    '42 hours, 24 of them assumed; 12.50 in money, and 1 of 2 works has no price'
    """

    works: int
    tenths: int
    assumed_tenths: int
    cents: int
    unpriced: int

    @property
    def words(self) -> str:
        """Say the hours, and the money where somebody has given any."""
        if not self.works:
            return "none"
        assumed = f"{self.assumed_tenths / TENTHS:g} of them assumed"
        hours = hours_in_words(self.tenths) + (f", {assumed}" if self.assumed_tenths else "")
        if not self.cents:
            return hours
        has = "has" if self.unpriced == 1 else "have"
        rest = (
            f", and {self.unpriced} of {self.works} works {has} no price" if self.unpriced else ""
        )
        return f"{hours}; {Decimal(self.cents) / 100:.2f} in money{rest}"


def sum_of(efforts: Iterable[Effort]) -> EffortSum:
    """Return what efforts come to.

    >>> sum_of([]).words
    'none'
    """
    efforts = list(efforts)
    return EffortSum(
        len(efforts),
        sum(one.tenths for one in efforts),
        sum(one.tenths for one in efforts if not one.is_estimated),
        sum(one.cents or 0 for one in efforts),
        sum(one.cents is None for one in efforts),
    )


def hours_in_words(tenths: int) -> str:
    """Return tenths of an hour as people say them.

    >>> hours_in_words(10), hours_in_words(45)
    ('1 hour', '4.5 hours')
    """
    return f"{tenths / TENTHS:.10g} hour{'' if tenths == TENTHS else 's'}"
