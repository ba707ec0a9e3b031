"""Lengths, quantities and dates in the words and figures of the workshop."""

import datetime as dt
from fractions import Fraction
from typing import Any

from django import template
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.html import format_html

from catalog.reckoning.edtf_dates import parse_date
from catalog.reckoning.identity_words import percent
from catalog.reckoning.length_texts import (
    exact,
    format_doubt,
    format_doubtful,
    format_gauge,
    format_inches,
    format_mm,
)

register = template.Library()

GLYPHS = {
    Fraction(1, 4): "¼",
    Fraction(1, 2): "½",
    Fraction(3, 4): "¾",
    Fraction(1, 3): "⅓",
    Fraction(2, 3): "⅔",
}


@register.filter
def inches(mm: Any) -> str:
    return "" if mm is None else format_inches(mm)


@register.filter
def millimeters(mm: Any, uncertainty: Any = None) -> str:
    """Write a size, with its ± where there is one and no digit more than that supports."""
    if mm is None:
        return ""
    return format_doubtful(mm, uncertainty) if uncertainty else format_mm(mm)


@register.filter
def doubt(mm: Any) -> str:
    return "" if mm is None else format_doubt(mm)


@register.filter
def gauge_words(mm: Any) -> str:
    return "" if mm is None else format_gauge(mm)


@register.filter
def quantity(number: Any) -> str:
    """Write ``2.5`` as ``2½``: half a spring is counted as a half, not as a decimal."""
    if number is None:
        return ""
    whole, part = divmod(exact(number), 1)
    if part and part not in GLYPHS:
        return f"{float(exact(number)):.2f}".rstrip("0")
    return f"{whole}" if not part else f"{whole or ''}{GLYPHS[part]}"


@register.filter
def date_words(edtf: str) -> str:
    """Say an EDTF date of the record in plain words."""
    return parse_date(edtf).in_words() if edtf else ""


@register.filter
def chance(probability: float | None) -> str:
    """Write a probability as a percentage that never claims certainty."""
    return "" if probability is None else percent(probability)


@register.filter
def day(date: dt.date | None) -> str:
    """Write a day so that no country can misread it, for people and for machines."""
    if date is None:
        return ""
    local = timezone.localtime(date).date() if isinstance(date, dt.datetime) else date
    words = date_format(local, "j F Y")
    return format_html('<time datetime="{}">{}</time>', local.isoformat(), words)


@register.filter
def moment(instant: dt.datetime | None) -> str:
    if instant is None:
        return ""
    local = timezone.localtime(instant)
    words = date_format(local, "j F Y, H:i")
    return format_html('<time datetime="{}">{}</time>', local.isoformat(timespec="minutes"), words)
