"""Rows of long lists, each drawn once and kept for as long as it says the same."""

from collections.abc import Iterable
from functools import lru_cache

from django import template
from django.template.loader import render_to_string
from django.utils.safestring import SafeString, mark_safe

from catalog.queries.part_lists import PartRow

register = template.Library()

# Some 4 MB of rows; the same ones are looked at again and again.
KEPT_ROWS = 4_000


@register.simple_tag
def part_list_rows(rows: Iterable[PartRow]) -> SafeString:
    return mark_safe("".join(map(_part_row, rows)))  # noqa: S308 - joined from rendered templates


@lru_cache(KEPT_ROWS)
def _part_row(row: PartRow) -> SafeString:
    # What a row shows follows from its values alone, so equal values may share the text.
    return render_to_string("catalog/parts/_row.html", {"row": row})
