"""Numbered notes: the signs that lead from words to their sources."""

from collections.abc import Iterable
from typing import Any

from django import template
from django.utils.html import format_html, format_html_join

register = template.Library()


@register.filter
def noted(numbers: Iterable[int]) -> str:
    """Write the numbers of notes raised, a hair apart from the words, so that no year grows."""
    told = ", ".join(map(str, numbers))
    return format_html("\u202f<sup>{}</sup>", told) if told else ""


@register.filter
def noted_line(entries: Iterable[Any]) -> str:
    """Write the owners in one line, each with the numbers of its notes before its mark.

    A long chain has hundreds of entries, and a template takes far longer over them.
    """
    told = ((one.words, noted(one.notes), one.mark) for one in entries)
    return format_html_join(" ", "{}{}{}", told)
