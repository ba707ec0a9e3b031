"""Taking stock of a location on the screen, with the sheet to print and what was found before."""

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.stock_takes import StockTakeForm
from catalog.http import MemberRequest
from catalog.models import Location, StockTake
from catalog.operations.stock_takes import move_unexpected, take_stock
from catalog.printing.papers import paper_named
from catalog.printing.stock_takes import stock_take_sheet
from catalog.queries.stock_takes import expected_at, outcome_of, stock_takes_of
from catalog.views.fetch import fetch, refusals_shown_in, refusals_told
from catalog.views.papers import full_address, pdf_answer
from catalog.views.undo import told_with_undo


@require_http_methods(["GET", "HEAD", "POST"])
def stock_take(request: MemberRequest, pk: int) -> HttpResponse:
    location = fetch(Location.objects.for_detail().kept(), request, pk=pk)
    form = StockTakeForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            taken = take_stock(location, form.cleaned_data["pieces"], by=request.user)
            return redirect(taken)
    context = {
        "location": location,
        "form": form,
        "expected": expected_at(location).count(),
        "former": stock_takes_of(location),
    }
    return render(request, "catalog/places/stock_take.html", context)


@require_safe
def stock_take_detail(request: MemberRequest, pk: int) -> HttpResponse:
    taken = fetch(StockTake.objects.select_related("location", "counted_by"), request, pk=pk)
    context = {"taken": taken, "location": taken.location, "outcome": outcome_of(taken)}
    return render(request, "catalog/places/stock_taken.html", context)


@require_POST
def stock_take_move(request: MemberRequest, pk: int) -> HttpResponse:
    taken = fetch(StockTake.objects.select_related("location"), request, pk=pk)
    with refusals_told(request):
        moves = move_unexpected(taken, by=request.user)
        what = "1 part is" if len(moves) == 1 else f"{len(moves)} parts are"
        values = [("move", move.pk) for move in moves]
        told_with_undo(request, f"{what} at {taken.location} now.", reverse("move-undo"), values)
    return redirect(taken)


@require_safe
def stock_take_print(request: MemberRequest, pk: int) -> HttpResponse:
    location = fetch(Location.objects.kept(), request, pk=pk)
    address = full_address(request, reverse("stock-take", args=[pk]))
    paper = paper_named(request.GET.get("paper", ""))
    pdf = stock_take_sheet(location, address=address, paper=paper)
    return pdf_answer(pdf, f"stock-take-{pk}")
