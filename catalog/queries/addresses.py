"""Addresses of many records of one kind."""

from collections.abc import Iterable

from django.urls import reverse

# A key that stands nowhere else in an address.
STAND_IN = 8_070_605_040_302_010


def addresses(name: str, keys: Iterable[int], *more: object) -> dict[int, str]:
    """Return the address called ``name`` of each key; ``more`` goes behind the key.

    One is worked out and the others are made from it: working out fifty takes as long as
    fetching the fifty rows.
    """
    before, _, after = reverse(name, args=[STAND_IN, *more]).partition(str(STAND_IN))
    return {key: f"{before}{key}{after}" for key in keys}
