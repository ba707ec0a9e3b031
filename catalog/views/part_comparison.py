"""A part's photos beside pictures of what it may be, zoomed together."""

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog.forms.fits import CompareForm
from catalog.http import MemberRequest
from catalog.models import Component, Part
from catalog.queries.comparison import comparison_of
from catalog.queries.identity import what_it_may_be
from catalog.views.fetch import fetch, key_of
from catalog.views.fits import bench_cells
from catalog.views.sheets import part_sheets

# So many of what an unidentified part may be are offered to hold it against.
LIKELIEST = 5


@require_safe
def part_compare(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.for_detail(), request, pk=pk)
    offered = [] if part.component else _likeliest(part)
    component = _asked(request) or part.component or (offered[0] if offered else None)
    context = {
        "part": part,
        "component": component,
        "offered": offered,
        "comparison": comparison_of(part, component),
        "form": CompareForm(initial={"component": component}),
        "cells": bench_cells(part),
        "sheets": part_sheets(part, "Compare"),
    }
    return render(request, "catalog/fits/compare.html", context)


def _likeliest(part: Part) -> list[Component]:
    """Return the components that it most likely is, once anything recorded tells them apart."""
    found = what_it_may_be(part)
    if not found.known.evidence:
        return []
    named = [one.component for one in found.candidates if one.component is not None]
    return list(dict.fromkeys(named))[:LIKELIEST]


def _asked(request: MemberRequest) -> Component | None:
    key = key_of(request.GET.get("component", ""))
    return Component.objects.kept().filter(pk=key).first() if key else None
