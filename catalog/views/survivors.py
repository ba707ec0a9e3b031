"""Surviving examples elsewhere: who has them, and the list to take along."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_POST, require_safe

from catalog.http import MemberRequest
from catalog.models import Source, VehicleClass
from catalog.operations.citations import example_of
from catalog.printing.measuring_lists import measuring_list
from catalog.printing.papers import paper_named
from catalog.queries.survivors import survivor_of, survivors, to_measure
from catalog.views.fetch import fetch, key_of, members_only, refusals_told
from catalog.views.papers import pdf_answer, record_address


@require_safe
@members_only()
def survivor_list(request: MemberRequest) -> HttpResponse:
    return render(request, "catalog/survivors/list.html", {"survivors": survivors()})


@require_safe
def survivor_detail(request: MemberRequest, pk: int) -> HttpResponse:
    found = survivor_of(_survivor(request, pk))
    context = {
        "survivor": found,
        "lists": to_measure(found),
        "choices": VehicleClass.objects.kept().order_by("designation"),
    }
    return render(request, "catalog/survivors/detail.html", context)


@require_POST
def survivor_class(request: MemberRequest, pk: int) -> HttpResponse:
    source = _survivor(request, pk)
    key = key_of(request.POST.get("vehicle_class", ""))
    vehicle_class = get_object_or_404(VehicleClass.objects.kept(), pk=key)
    with refusals_told(request):
        example_of(source, vehicle_class, by=request.user)
        messages.success(request, f"It counts as an example of {vehicle_class}.")
    return redirect("survivor-detail", pk)


@require_safe
def survivor_print(request: MemberRequest, pk: int) -> HttpResponse:
    found = survivor_of(_survivor(request, pk))
    pdf = measuring_list(
        found,
        to_measure(found),
        address=record_address(request, found.source),
        paper=paper_named(request.GET.get("paper", "")),
    )
    return pdf_answer(pdf, f"measure-{found.source.pk}")


def _survivor(request: MemberRequest, pk: int) -> Source:
    rows = Source.objects.kept().filter(kind=Source.Kind.SURVIVOR).select_related("holder")
    return fetch(rows.prefetch_related("citations__vehicle_class"), request, pk=pk)
