"""Published limits on the screen, to be taken over by a class."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from catalog.forms.published_limits import AdoptLimitForm
from catalog.http import MemberRequest
from catalog.models import Specification, VehicleClass
from catalog.models.members import Role
from catalog.operations.published_limits import adopt_published_limit
from catalog.reckoning.published_limits import PUBLISHED, REFERENCE_ONLY
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.specifications import told_of


@require_safe
def published_limits(request: MemberRequest, pk: int) -> HttpResponse:
    kind = fetch(VehicleClass.objects.kept(), request, Role.CURATOR, pk=pk)
    context = {"class": kind, "limits": PUBLISHED.values(), "warning": REFERENCE_ONLY}
    return render(request, "catalog/vehicle_classes/published.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def published_limit_adopt(request: MemberRequest, pk: int, code: str) -> HttpResponse:
    kind = fetch(VehicleClass.objects.kept(), request, Role.CURATOR, pk=pk)
    limit = PUBLISHED.get(code)
    if limit is None:
        raise Http404("There is no such published limit.")
    sent = request.POST if request.method == "POST" else None
    form = AdoptLimitForm(sent, vehicle_class=kind, limit=limit)
    if form.is_valid():
        with refusals_shown_in(form):
            row = adopt_published_limit(kind, code, **form.values(), by=request.user)
            words = f"{limit.section} is taken over as a reference, and cited."
            told = told_of(row) if isinstance(row, Specification) else ""
            messages.success(request, f"{words} {told}".strip())
            return redirect(kind)
    page = FormPage(
        f"{limit.section}: {limit.what}",
        reverse("published-limits", args=[pk]),
        lead=f"{limit.certainty.capitalize()}. {limit.remark} {REFERENCE_ONLY}",
        save="Take it over",
    )
    return show_form(request, form, page)
