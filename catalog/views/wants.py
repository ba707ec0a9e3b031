"""Wants for members: written from a position, published, printed, and closed."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.wants import ClosingForm, WantForm
from catalog.http import MemberRequest
from catalog.models import Vehicle, Want
from catalog.models.members import Role
from catalog.operations.wants import (
    change_want,
    close_want,
    hide_want,
    publish_want,
    record_want,
    reopen_want,
)
from catalog.printing.papers import paper_named
from catalog.printing.wanted import wanted_sheet
from catalog.queries.positions import positions_of
from catalog.queries.wants import asked_of, named_though_hidden, want_sheet
from catalog.views.fetch import (
    fetch,
    key_of,
    members_only,
    refusals_shown_in,
    refusals_told,
    require,
)
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of
from catalog.views.papers import full_address, pdf_answer


@require_safe
@members_only()
def want_list(request: MemberRequest) -> HttpResponse:
    return render(
        request, "catalog/wants/list.html", {"page": page_of(Want.objects.for_list(), request)}
    )


@require_safe
def want_detail(request: MemberRequest, slug: str) -> HttpResponse:
    want = fetch(Want.objects.for_detail(), request, slug=slug)
    context = {
        "want": want,
        "sheet": want_sheet(want),
        "shown": want_sheet(want, for_visitor=True),
        "named": named_though_hidden(want) if request.user.is_curator else None,
        "answer_count": want.answers.kept().count(),
        "form": ClosingForm(),
    }
    return render(request, "catalog/wants/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def want_add(request: MemberRequest) -> HttpResponse:
    if request.method != "POST":
        return _show(request, WantForm(initial=_asked(request)))
    form = WantForm(request.POST)
    if form.is_valid():
        with refusals_shown_in(form):
            want = record_want(form.values(), by=request.user)
            messages.success(request, f"“{want}” is written down. Nobody outside sees it yet.")
            return redirect(want)
    return _show(request, form)


@require_http_methods(["GET", "HEAD", "POST"])
def want_change(request: MemberRequest, slug: str) -> HttpResponse:
    want = fetch(Want.objects.kept(), request, slug=slug)
    form = WantForm(request.POST if request.method == "POST" else None, instance=want)
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(
                change_want(want, form.values(), by=request.user, seen=form.seen_version)
            )
    return show_form(request, form, FormPage(f"Change “{want}”", want.get_absolute_url()))


@require_POST
def want_publish(request: MemberRequest, slug: str) -> HttpResponse:
    want = fetch(Want.objects.all(), request, Role.CURATOR, slug=slug)
    with refusals_told(request):
        publish_want(want, by=request.user)
        messages.success(request, f"Everybody can read “{want}” and answer it.")
    return redirect(want)


@require_POST
def want_hide(request: MemberRequest, slug: str) -> HttpResponse:
    want = fetch(Want.objects.all(), request, Role.CURATOR, slug=slug)
    with refusals_told(request):
        hide_want(want, by=request.user)
        messages.success(request, f"“{want}” is for members only again.")
    return redirect(want)


@require_POST
def want_close(request: MemberRequest, slug: str) -> HttpResponse:
    want = fetch(Want.objects.all(), request, Role.CURATOR, slug=slug)
    form = ClosingForm(request.POST)
    with refusals_told(request):
        words = form.cleaned_data["words"] if form.is_valid() else ""
        close_want(want, words=words, by=request.user)
        messages.success(request, f"“{want}” is closed.")
    return redirect(want)


@require_POST
def want_reopen(request: MemberRequest, slug: str) -> HttpResponse:
    want = fetch(Want.objects.all(), request, Role.CURATOR, slug=slug)
    with refusals_told(request):
        reopen_want(want, by=request.user)
        messages.success(request, f"“{want}” is open again.")
    return redirect(want)


@require_safe
def want_print(request: MemberRequest, slug: str) -> HttpResponse:
    """Print the sheet to pin up; until the want is public its code leads to the list of wants."""
    want = fetch(Want.objects.for_detail(), request, slug=slug)
    leads_to = want.get_public_url() if want.is_published and want.is_open else reverse("wanted")
    address = full_address(request, leads_to)
    paper = paper_named(request.GET.get("paper", ""))
    sheet = want_sheet(want, for_visitor=True)
    return pdf_answer(wanted_sheet(sheet, address=address, paper=paper), f"wanted-{want.slug}")


def _show(request: MemberRequest, form: WantForm) -> HttpResponse:
    lead = (
        "Everything can be changed, and its picture chosen, once it is saved. "
        "It is read by members only until somebody publishes it."
    )
    return show_form(request, form, FormPage("Ask for a piece", reverse("want-list"), lead))


def _asked(request: MemberRequest) -> dict[str, object]:
    require(request)
    slug, keys = request.GET.get("vehicle", ""), request.GET.getlist("position")
    if not (slug and any(keys)):
        return {}
    vehicle = get_object_or_404(Vehicle.objects.select_related("vehicle_class"), slug=slug)
    own = {position.pk: position for position in positions_of(vehicle)}
    asked = [own.get(key_of(key) or 0) for key in dict.fromkeys(keys)]
    like = [position for position in asked if position is not None]
    if len(like) != len(asked) or len({position.component_id for position in like}) != 1:
        raise Http404(f"{vehicle} has no such position.")
    return asked_of(vehicle, *like)
