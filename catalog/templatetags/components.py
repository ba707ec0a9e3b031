"""The building blocks of every page: leaves that show one thing, frames that hold others."""

from collections.abc import Iterable
from datetime import date
from functools import cache
from typing import Any

from django import template
from django.core.paginator import Page
from django.template import Context
from django.template.loader import render_to_string
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from catalog.icons import ICONS
from catalog.reckoning.section_lining import LININGS
from catalog.templatetags.formatting import day

register = template.Library()

# A scale with more divisions than this would be a gray smear on a phone.
MOST_DIVISIONS = 60


@register.simple_tag(name="icon")
@cache
def drawn_icon(name: str) -> SafeString:
    """Draw one line icon; the words beside it carry the meaning, so it is hidden from readers."""
    return format_html(
        '<svg class="icon" viewBox="0 0 24 24" aria-hidden="true">{}</svg>',
        mark_safe(ICONS[name]),  # noqa: S308 - our own drawing, no text of a person in it
    )


@register.simple_block_tag
def card(content: str, title: str, *, icon: str = "", tone: str = "", level: int = 2) -> SafeString:
    """Frame a part of a page; a record has a dozen, so they are written without a template."""
    return format_html(
        '<section class="card{}">\n  <h{} class="card-title">{}{}</h{}>\n  {}\n</section>\n',
        f" {tone}" if tone else "",
        level,
        format_html("{} ", drawn_icon(icon)) if icon else "",
        title,
        level,
        content,
    )


@register.simple_block_tag
def empty_state(content: str, title: str) -> SafeString:
    return render_to_string("components/empty_state.html", {"content": content, "title": title})


@register.simple_block_tag
def timeline_item(
    content: str, *, when: str, title: str, by: str = "", certainty: str = "", anchor: str = ""
) -> SafeString:
    """Show one event; ``anchor`` is what a link on the page leads to it by."""
    context = {"content": content, "when": when, "title": title, "by": by, "certainty": certainty}
    return render_to_string("components/timeline_item.html", {**context, "anchor": anchor})


@register.inclusion_tag("components/title_block.html")
def title_block(
    *,
    number: str,
    name: str,
    kind: str = "",
    cells: Iterable[tuple[str, Any]] = (),
    sheets: Iterable[Any] = (),
) -> dict[str, Any]:
    context = {"number": number, "name": name, "kind": kind, "sheets": sheets}
    return {**context, "cells": _shown(cells)}


@register.inclusion_tag("components/field_list.html")
def field_list(rows: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    return {"rows": _shown(rows)}


@register.simple_tag
@cache
def state_swatch(state: str, *, words: bool = True) -> SafeString:
    """Draw the lining of a state; there are few of them, and a page may show each forty times."""
    lining = LININGS[state]
    return format_html(
        '<span class="state"><svg class="lining" width="24" height="24" viewBox="0 0 24 24" '
        'aria-hidden="true">{}</svg> <span{}>{}</span></span>',
        mark_safe(lining.shapes),  # noqa: S308 - our own drawing, no text of a person in it
        "" if words else mark_safe(' class="visually-hidden"'),
        lining.words,
    )


@register.simple_tag
@cache
def state_legend() -> SafeString:
    """Show all hatches with their words; they are the same on every page, so made once."""
    return render_to_string("components/state_legend.html", {"states": list(LININGS)})


@register.inclusion_tag("components/dimension.html")
def dimension(mm: Any, text: str = "", *, uncertainty: Any = None) -> dict[str, Any]:
    return {"mm": mm, "text": text, "uncertainty": uncertainty}


@register.simple_tag
def chip(
    words: str, *, url: str = "", count: int | None = None, on: bool = False, tone: str = ""
) -> SafeString:
    """Show a word or two in a frame; lists have dozens, so they are written without a template."""
    return format_html(
        '<{} class="chip{}"{}>{}{}</{}>',
        format_html('a href="{}"', url) if url else "span",
        f" {tone}" if tone else "",
        mark_safe(' aria-current="true"') if on else "",
        words,
        "" if count is None else format_html(' <span class="chip-count">{}</span>', count),
        "a" if url else "span",
    )


@register.inclusion_tag("components/tag_code.html")
def tag_code(code: str, *, url: str = "") -> dict[str, Any]:
    return {"code": code, "url": url}


@register.inclusion_tag("components/photo.html")
def photo(
    photo: Any, size: int = 320, *, url: str = "", captioned: bool = False, lazy: bool = True
) -> dict[str, Any]:
    """Show a photograph at 320 or 960 pixels, its place on the page kept while it loads."""
    return {
        "photo": photo,
        "large": size > 320,
        "width": size,
        "height": round(size * photo.height / photo.width) if photo else 0,
        "url": url,
        "captioned": captioned,
        "lazy": lazy,
    }


@register.inclusion_tag("components/measuring_picture.html")
def measuring_picture(picture: Any, names: str) -> dict[str, Any]:
    """Show on a picture where to measure, large enough to read a drawing's lettering."""
    return {
        "picture": None if picture is None or picture.is_withdrawn else picture,
        "is_drawn": picture is not None and picture.role == "drawing",
        "names": names,
    }


@register.inclusion_tag("components/caution.html")
def caution(hazards: Iterable[Any]) -> dict[str, Any]:
    return {"hazards": hazards}


@register.inclusion_tag("components/meter.html")
def meter(done: int, total: int, what: str) -> dict[str, Any]:
    return {"done": done, "total": total, "what": what, "ticks": _ticks(total)}


@register.inclusion_tag("components/pagination.html", takes_context=True)
def pagination(context: Context, page: Page[Any]) -> dict[str, Any]:
    return {"request": context["request"], "page": page}


def _shown(rows: Iterable[tuple[str, Any]]) -> list[tuple[str, Any]]:
    return [(label, day(value) if isinstance(value, date) else value) for label, value in rows]


def _ticks(total: int) -> str:
    step = 1 if total <= MOST_DIVISIONS else total / 10
    count = round(total / step) if total else 0
    return "".join(f"M{number * step:g} 0v1" for number in range(1, count))
