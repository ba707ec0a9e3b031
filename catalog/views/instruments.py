"""What is measured with: the instruments of the group and how far each may be off."""

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from catalog.forms.instruments import InstrumentForm
from catalog.http import MemberRequest
from catalog.models import Instrument
from catalog.models.members import Role
from catalog.operations.instruments import change_instrument, record_instrument
from catalog.queries.instruments import instrument_sheet
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, sent, show_form

LEAD = "What was read with it before keeps the ± that it was written down with."


@require_safe
@members_only()
def instrument_list(request: MemberRequest) -> HttpResponse:
    context = {
        "instruments": Instrument.objects.for_list(),
        "withdrawn": Instrument.objects.withdrawn(),
    }
    return render(request, "catalog/instruments/list.html", context)


@require_safe
def instrument_detail(request: MemberRequest, pk: int) -> HttpResponse:
    instrument = fetch(Instrument.objects.all(), request, pk=pk)
    context = {"sheet": instrument_sheet(instrument), "instrument": instrument}
    return render(request, "catalog/instruments/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only(Role.CURATOR)
def instrument_add(request: MemberRequest) -> HttpResponse:
    form = InstrumentForm(*sent(request))
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(record_instrument(form.values(), by=request.user))
    return show_form(request, form, FormPage("Add an instrument", reverse("instrument-list")))


@require_http_methods(["GET", "HEAD", "POST"])
def instrument_change(request: MemberRequest, pk: int) -> HttpResponse:
    instrument = fetch(Instrument.objects.kept(), request, Role.CURATOR, pk=pk)
    form = InstrumentForm(*sent(request), instance=instrument)
    if form.is_valid():
        with refusals_shown_in(form):
            values, seen = form.values(), form.seen_version
            return redirect(change_instrument(instrument, values, by=request.user, seen=seen))
    page = FormPage(f"Change {instrument}", instrument.get_absolute_url(), lead=LEAD)
    return show_form(request, form, page)
