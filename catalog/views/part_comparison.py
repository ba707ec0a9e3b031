"""A part's photos beside pictures of what it may be, zoomed together."""

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog.http import MemberRequest
from catalog.models import Component, Part
from catalog.queries.comparison import comparison_of
from catalog.views.fetch import fetch
from catalog.views.fits import bench_cells, component_of, leading_guess
from catalog.views.sheets import part_sheets


@require_safe
def part_compare(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.for_detail(), request, pk=pk)
    component = part.component or component_of(leading_guess(part))
    asked = request.GET.get("component", "")
    if asked.isdecimal() and len(asked) < 10:
        component = Component.objects.kept().filter(pk=int(asked)).first() or component
    context = {
        "part": part,
        "component": component,
        "comparison": comparison_of(part, component),
        "choices": Component.objects.kept().filter(parts__isnull=False).distinct(),
        "cells": bench_cells(part),
        "sheets": part_sheets(part, "Compare"),
    }
    return render(request, "catalog/fits/compare.html", context)
