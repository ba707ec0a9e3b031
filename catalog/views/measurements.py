"""Readings on the screen: written down, said what they amount to, and taken back."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.text import capfirst
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.part_record import where_to_measure
from catalog.forms.parts import MeasurementForm
from catalog.http import MemberRequest
from catalog.models import Measurement, Part
from catalog.operations.measurements import record_measurement, take_back_measurement
from catalog.queries.measurements import readings_together
from catalog.views.fetch import fetch, key_of, refusals_shown_in, refusals_told
from catalog.views.fits import said_anew
from catalog.views.form_pages import FormPage, show_form
from catalog.views.undo import told_with_undo

# Where a reading that is taken back was written down, by the word that the form carries.
PAGES = {"what": "part-identity", "fits": "part-fits"}


@require_http_methods(["GET", "HEAD", "POST"])
def part_measure(request: MemberRequest, pk: int) -> HttpResponse:
    """Take a reading; for what another piece waits for it, go back there and say what it tells."""
    part = fetch(Part.objects.kept().select_related("component"), request, pk=pk)
    waiting = _waiting_for(request)
    initial = {"characteristic": request.GET.get("at"), "name": request.GET.get("name")}
    sent = request.POST if request.method == "POST" else None
    form = MeasurementForm(sent, part=part, prefix="measurement", initial=initial)
    if form.is_valid():
        with refusals_shown_in(form):
            reading = record_measurement(part, by=request.user, **form.cleaned_data)
            now = said_anew(waiting, part) if waiting else ""
            tell_reading(request, reading, now=now, page="fits" if waiting == part else "")
            return redirect("part-fits", pk=waiting.pk) if waiting else redirect(part)
    back = reverse("part-fits", args=[waiting.pk]) if waiting else part.get_absolute_url()
    page = FormPage(f"Measure {part}", back, save="Write it down", shown=where_to_measure(part))
    return show_form(request, form, page)


@require_POST
def measurement_take_back(request: MemberRequest, pk: int) -> HttpResponse:
    reading = fetch(Measurement.objects.kept().select_related("part"), request, pk=pk)
    with refusals_told(request):
        take_back_measurement(reading, by=request.user)
        messages.success(request, f"{reading} is taken back. It stays in the history.")
    page = PAGES.get(request.POST.get("page", ""))
    return redirect(page, pk=reading.part_id) if page else redirect(reading.part)


def tell_reading(
    request: MemberRequest, reading: Measurement, *, now: str = "", page: str = ""
) -> None:
    """Say what was recorded and what it changes, with a way back, and whether repeats agree."""
    told = f"Recorded for {reading.part}: {reading.name} {reading.measured}."
    together = readings_together(reading.part, reading.name)
    if together and together.together.is_consistent:
        told = f"{told} {together.together.sentence}"
    told = f"{told} Now: {now}" if now else told
    address = reverse("measurement-take-back", args=[reading.pk])
    told_with_undo(request, told, address, [("page", page)])
    if together and not together.together.is_consistent:
        messages.warning(request, capfirst(f"{reading.name}: {together.together.sentence}"))


def _waiting_for(request: MemberRequest) -> Part | None:
    """Return the part whose fit waits for the reading, where the address names one."""
    key = key_of(request.GET.get("to_fit", ""))
    return Part.objects.for_detail().filter(pk=key).first() if key else None
