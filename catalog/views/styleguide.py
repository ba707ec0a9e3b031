"""Show every building block once, to whoever is building pages with them."""

import datetime as dt
from dataclasses import dataclass
from fractions import Fraction

from django import forms
from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.templatetags.static import static
from django.views.decorators.http import require_safe

from catalog.icons import ICONS
from catalog.queries.intake import Intake, Month
from catalog.queries.needs import StateCount
from catalog.queries.shed_maps import Marked
from catalog.reckoning.chains import chain
from catalog.reckoning.periods import ProvenanceEvent
from catalog.reckoning.section_lining import LININGS
from catalog.reckoning.shed_plans import Place, lay_out


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing or photograph for show, with the attributes that the tags ask for."""

    url: str
    width: int
    height: int
    alt: str = ""
    caption: str = ""
    spots: tuple["Spot", ...] = ()
    role: str = "drawing"
    is_withdrawn: bool = False
    get_absolute_url: str = "#photo"

    @property
    def url_320(self) -> str:
        return self.url

    @property
    def url_960(self) -> str:
        return self.url


@dataclass(frozen=True, slots=True)
class Spot:
    code: str
    label: str
    x: float
    y: float
    state: str
    url: str = "#drawing"


@dataclass(frozen=True, slots=True)
class Hazard:
    label: str
    caution: str


@dataclass(frozen=True, slots=True)
class Sheet:
    label: str
    url: str
    current: bool = False


class SampleForm(forms.Form):
    """One field of each sort, so that every look of a field can be seen."""

    diameter = forms.CharField(
        label="Journal diameter",
        help_text="As you would write it: 3 3/4, 95mm.",
        widget=forms.TextInput(attrs={"data-length-echo": "", "data-unit": "in"}),
    )
    made = forms.CharField(
        label="When was it made?",
        required=False,
        widget=forms.TextInput(attrs={"data-date-echo": ""}),
    )
    count = forms.IntegerField(label="How many", initial=1)
    component = forms.ChoiceField(
        label="What is it?",
        choices=[("", "not known yet")] + [(word, word) for word in ("bearing brass", "drawhead")],
        required=False,
        widget=forms.Select(attrs={"data-choice-search": ""}),
    )
    usability = forms.ChoiceField(
        label="Usability",
        choices=[("ready", "ready"), ("repair", "needs repair"), ("pattern", "pattern only")],
        widget=forms.RadioSelect,
    )
    heavy = forms.BooleanField(label="Too heavy for one person", required=False)
    words = forms.CharField(label="In words", widget=forms.Textarea(attrs={"rows": 3}))
    picture = forms.FileField(label="Photograph", required=False)


SPOTS = (
    Spot("H1", "hand brake", 0.5, 0.29, "fitted"),
    Spot("A1", "wheelset", 0.3, 0.77, "trial"),
    Spot("L1", "journal box", 0.7, 0.77, "reserved"),
    Spot("D1", "door hinge", 0.18, 0.29, "available"),
    Spot("D2", "door hinge", 0.82, 0.29, "repair"),
    Spot("B1", "drawhead", 0.09, 0.62, "pattern"),
    Spot("B2", "drawhead", 0.91, 0.62, "nothing"),
)
HAZARDS = (
    Hazard("Asbestos", "The lagging may hold asbestos. Do not cut, brush or break it."),
    Hazard("Stored spring energy", "The spring is held under load and can fly out."),
)
EVENTS = (
    ProvenanceEvent(
        "built",
        dt.date(1898, 1, 1),
        dt.date(1903, 12, 31),
        source="drawing 14",
        kind="built",
        to_party="Skarn Mill",
        when="some time between 1898 and 1903",
    ),
    ProvenanceEvent(
        "given",
        dt.date(1957, 6, 1),
        dt.date(1957, 6, 30),
        kind="given",
        from_party="Tolvane Town",
        to_party="the group",
        certainty="probable",
        when="June 1957",
    ),
)
SHEETS = (Sheet("Record", "#main", current=True), Sheet("Fits", "#fits"), Sheet("History", "#on"))
CELLS = (
    ("Class", "two-axle tub"),
    ("Gauge", "2 ft (609.6 mm)"),
    ("Certainty", "agreed by two people"),
    ("Recorded by", "E. Tarn"),
    ("Date", dt.date(2026, 4, 17)),
    ("Sheet", "1 of 3"),
)


INTAKE = Intake(
    "Accession 2026.4",
    tuple(Month(dt.date(2026, 1 + place, 1), pieces) for place, pieces in enumerate((9, 0, 31, 4))),
)
SHELVES = tuple(Place(key, f"Shelf {key}", "5 parts") for key in (1, 2))
SHED = Place(4, "Shop", "10 parts", inside=(Place(3, "Rack A", "10 parts", True, SHELVES),))
MARKS = {
    key: Marked("#shed", kind, f"a {kind}", 0, is_found=key == 1, holds_found=key > 2)
    for key, kind in ((1, "shelf"), (2, "shelf"), (3, "rack"), (4, "building"))
}


@login_not_required
@require_safe
def styleguide(request: HttpRequest) -> HttpResponse:
    """Answer in development only: it is a page for builders, not for the group."""
    if not (settings.DEBUG or settings.SHOW_STYLEGUIDE):
        raise Http404
    messages.success(request, "Saved as 2026.4.17.")
    messages.error(request, "Tag K7Q-2M9V is tied to 2026.4.12, drawhead. Take another tag.")
    wagon = static("img/styleguide/wagon.svg")
    drawing = Picture(wagon, 1000, 480, alt="Side of a wagon", spots=tuple(SPOTS))
    brass = Picture(static("img/styleguide/brass.svg"), 640, 480, caption="The brass, crown up")
    context = {
        "icons": list(ICONS),
        "cells": CELLS,
        "sheets": SHEETS,
        "form": SampleForm(data={"diameter": "3/0 in", "count": "2", "usability": "repair"}),
        "drawing": drawing,
        "spots": SPOTS,
        "photo": brass,
        "hazards": HAZARDS,
        "rows": (("Material", "brass"), ("Mass", None), ("Marks", "M F T 7?")),
        "page": Paginator(range(30), 10).page(2),
        "length_mm": Fraction("95.25"),
        "step_mm": Fraction("0.1"),
        "day": dt.date(2026, 4, 17),
        "half": Fraction(5, 2),
        "chain": chain(EVENTS),
        "intake": INTAKE,
        "shed": lay_out([SHED], 328),
        "marks": MARKS,
        "states": list(LININGS),
        "counts": [
            StateCount(lining.slug, lining.words, 8 - number, 0)
            for number, lining in enumerate(LININGS.values())
        ],
    }
    return render(request, "styleguide/index.html", context)
