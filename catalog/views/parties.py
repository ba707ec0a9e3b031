"""People and organizations on the screen; their contact data is for members only."""

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from catalog.filters.parties import PartyFilter
from catalog.forms.parties import PartyForm
from catalog.http import MemberRequest
from catalog.models import Party
from catalog.operations.parties import change_party, record_party
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of


@require_safe
@members_only()
def party_list(request: MemberRequest) -> HttpResponse:
    chosen = PartyFilter(request.GET, Party.objects.for_list())
    context = {"filter": chosen, "page": page_of(chosen.qs, request)}
    return render(request, "catalog/parties/list.html", context)


@require_safe
def party_detail(request: MemberRequest, pk: int) -> HttpResponse:
    party = fetch(Party.objects.all(), request, pk=pk)
    context = {
        "party": party,
        "accessions": party.accessions.for_list(),
        "classes": party.classes_built.for_list(),
        "held": party.held_sources.for_list(),
        "accounts": party.accounts_given.for_list(),
    }
    return render(request, "catalog/parties/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def party_add(request: MemberRequest) -> HttpResponse:
    form = PartyForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(record_party(form.values(), by=request.user))
    return show_form(request, form, FormPage("Add a party", reverse("party-list")))


@require_http_methods(["GET", "HEAD", "POST"])
def party_change(request: MemberRequest, pk: int) -> HttpResponse:
    party = fetch(Party.objects.kept(), request, pk=pk)
    form = PartyForm(request.POST if request.method == "POST" else None, instance=party)
    if form.is_valid():
        with refusals_shown_in(form):
            change_party(party, form.values(), by=request.user, seen=form.seen_version)
            return redirect(party)
    return show_form(request, form, FormPage(f"Change {party}", party.get_absolute_url()))
