"""What a part fits, on the screen: open positions, mating parts in hand, sets of one corner."""

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog.forms.fits import ReadingForm
from catalog.http import MemberRequest
from catalog.models import Component, Part
from catalog.queries.fit_measuring import settling
from catalog.queries.fits import what_it_fits
from catalog.queries.identity import what_it_may_be
from catalog.queries.identity_answers import MayBe
from catalog.queries.places import where_in_words
from catalog.views.fetch import fetch
from catalog.views.sheets import part_sheets


@require_safe
def part_fits(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.for_detail(), request, pk=pk)
    assumed = leading_guess(part)
    fits = what_it_fits(part, taken_as=component_of(assumed))
    context = {
        "part": part,
        "assumed": assumed,
        "fits": fits,
        "settling": settling(fits),
        "reading": ReadingForm(prefix="measurement"),
        "cells": bench_cells(part),
        "sheets": part_sheets(part, "What it fits"),
    }
    return render(request, "catalog/fits/part.html", context)


def said_anew(piece: Part, measured: Part) -> str:
    """Return what is now said of a piece, after a reading was taken on it or on a mate of it."""
    fits = what_it_fits(piece, taken_as=component_of(leading_guess(piece)))
    said = (words for words in fits.summary if measured != piece and f"{measured} " in words)
    return next(said, fits.summary[0] if fits.summary else fits.why_not)


def leading_guess(part: Part) -> MayBe | None:
    """Return what an unidentified part most likely is, once something speaks for it."""
    if part.component is not None:
        return None
    found = what_it_may_be(part)
    named = (one for one in found.candidates if one.kind is not None)
    return next(named, None) if found.known.evidence else None


def component_of(guess: MayBe | None) -> Component | None:
    return guess.component if guess else None


def bench_cells(part: Part) -> list[tuple[str, object]]:
    """Return the ruled cells that the sheets of the bench share."""
    return [
        ("Class", part.vehicle_class),
        ("Standing", part.get_identification_status_display()),
        ("Usability", part.get_usability_display()),
        ("Pieces", part.quantity),
        ("Where", where_in_words(part)),
    ]
