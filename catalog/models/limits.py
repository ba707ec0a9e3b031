"""Limits that must not be crossed: told beside the field, and kept by the database as well."""

from collections.abc import Iterable
from decimal import Decimal
from typing import NamedTuple

from django.core.exceptions import ValidationError
from django.db import models


class Order(NamedTuple):
    """Two limits that stand in order, beside which of them to say that they do not, and how."""

    lower: str
    upper: str
    beside: str
    words: str


def in_order(lower: str, upper: str) -> models.Q:
    """Say that two limits, where both are given, stand in order."""
    return (
        models.Q(**{f"{lower}__isnull": True})
        | models.Q(**{f"{upper}__isnull": True})
        | models.Q(**{f"{upper}__gte": models.F(lower)})
    )


def refuse_crossed(row: models.Model, orders: Iterable[Order]) -> None:
    """Refuse the first two limits of ``row`` that are crossed, with both of them in the words."""
    for lower, upper, beside, words in orders:
        least, most = getattr(row, lower), getattr(row, upper)
        if least is not None and most is not None and least > most:
            here, there = (least, most) if beside == lower else (most, least)
            raise ValidationError(
                {beside: f"{words}: {_plain(here)} mm against {_plain(there)} mm."}
            )


def refuse_without_width(row: models.Model, lower: str, upper: str) -> None:
    """Refuse two limits that are one size: no measurement is so exact that a piece could be it."""
    least, most = getattr(row, lower), getattr(row, upper)
    if least is not None and least == most:
        raise ValidationError(
            {
                upper: f"Both limits are {_plain(least)} mm, and no piece could be shown to be "
                "just that: give them a width."
            }
        )


def _plain(limit: Decimal) -> str:
    return f"{Decimal(limit).normalize():f}"
