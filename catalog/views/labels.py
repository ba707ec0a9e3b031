"""Printing tags that nobody has used yet, and labels for locations."""

from typing import Any
from urllib.parse import urlsplit

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.labels import LabelForm, LocationLabelForm, TagSheetForm
from catalog.http import MemberRequest
from catalog.models import Location
from catalog.operations.printed_tags import draw_tags, tag_locations
from catalog.printing.labels import Label, Printer, label_sheet, modules_of, proof_sheet
from catalog.queries.places import places_at_or_below
from catalog.queries.tags import latest_printings
from catalog.reckoning.label_sheets import STOCKS
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.papers import full_address, pdf_answer

# A code as long as any other, to see how large the QR codes will be.
SAMPLE = "K7Q-2M9V"
# Addresses that lead a phone to itself.
NO_PLACE = {"localhost", "127.0.0.1", "0.0.0.0", "::1", "testserver"}  # noqa: S104
REMEMBERED = ("stock", "right_mm", "down_mm", "start")


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def tag_sheets(request: MemberRequest) -> HttpResponse:
    form = _form(TagSheetForm, request)
    if form.is_valid():
        with refusals_shown_in(form):
            tags = draw_tags(form.cleaned_data["count"], by=request.user)
            labels = [Label(tag.code, tag_address(request, tag.code)) for tag in tags]
            note = f"Printing {tags[0].sheet}, {timezone.localdate():%-d %B %Y}."
            return _paper(request, form, labels, f"tags-{tags[0].sheet}", note=note)
    context = {"form": form, "printings": latest_printings(), **_leading(request)}
    return render(request, "catalog/tags/sheets.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def location_labels(request: MemberRequest, pk: int) -> HttpResponse:
    location = fetch(Location.objects.for_detail().kept(), request, pk=pk)
    form = _form(LocationLabelForm, request)
    places = places_at_or_below(location)
    if form.is_valid():
        with refusals_shown_in(form):
            chosen = places if form.cleaned_data["below"] else [location]
            labels = [_of(request, place) for place in tag_locations(chosen, by=request.user)]
            return _paper(request, form, labels, f"labels-{location.pk}")
    context = {"form": form, "location": location, "places": places, **_leading(request)}
    return render(request, "catalog/tags/location_labels.html", context)


@require_POST
@members_only()
def label_proof(request: MemberRequest) -> HttpResponse:
    """Print the outlines only, so that no label is spoiled while the printer is set up."""
    form = LabelForm(request.POST, modules=modules_of(""))
    form.full_clean()
    told = form.cleaned_data
    stock = told.get("stock", STOCKS[0])
    printer = Printer(1, told.get("right_mm", 0.0), told.get("down_mm", 0.0))
    return pdf_answer(proof_sheet(stock, printer), f"proof-{stock.slug}")


def tag_address(request: HttpRequest, code: str) -> str:
    """Return what the QR code of a tag holds: as short as can be, so that its squares are large."""
    return full_address(request, reverse("tag-short", args=[code.replace("-", "")]))


def _form(kind: type[Any], request: MemberRequest) -> Any:
    posted = request.POST if request.method == "POST" else None
    remembered = request.session.get("labels", {})
    return kind(posted, initial=remembered, modules=modules_of(tag_address(request, SAMPLE)))


def _of(request: MemberRequest, place: Location) -> Label:
    code = place.tag or ""
    above = place.path.removesuffix(place.name).removesuffix(" › ")
    return Label(code, tag_address(request, code), heading=place.name, detail=above)


def _paper(
    request: MemberRequest, form: LabelForm, labels: list[Label], name: str, *, note: str = ""
) -> HttpResponse:
    told = form.cleaned_data
    stock, start = told["stock"], told["start"]
    paper = label_sheet(labels, stock, Printer(start, told["right_mm"], told["down_mm"]), note=note)
    following = (start - 1 + len(labels)) % stock.per_page + 1
    kept = {**told, "stock": stock.slug, "start": following}
    request.session["labels"] = {key: kept[key] for key in REMEMBERED}
    return pdf_answer(paper, name)


def _leading(request: MemberRequest) -> dict[str, Any]:
    """Return where the codes will lead, and whether no other device would get there."""
    address = full_address(request, "/t/")
    return {
        "address": address,
        "leads_nowhere": urlsplit(address).hostname in NO_PLACE,
    }
