"""What a scanned tag opens: the piece or place that bears it, or taking a new piece in."""

from urllib.parse import urlencode

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from catalog.queries.tags import bearer_of
from catalog.reckoning.codes import normalize_tag_code, tag_problem


@login_not_required
@require_safe
def tag_open(request: HttpRequest, code: str) -> HttpResponse:
    """Send whoever scanned a tag on; the page that it leads to decides who may see it."""
    if problem := tag_problem(code):
        context = {"code": code, "problem": problem}
        return render(request, "catalog/tags/wrong.html", context, status=404)
    bearer = bearer_of(normalize_tag_code(code))
    if bearer is not None:
        return redirect(bearer)
    return redirect(f"{reverse('take-in')}?{urlencode({'tag': normalize_tag_code(code)})}")


@login_not_required
@require_safe
def tag_find(request: HttpRequest) -> HttpResponse:
    """Open the tag whose code was typed, as if it had been scanned."""
    code = request.GET.get("code", "").strip().strip("/")
    return redirect("tag-open", normalize_tag_code(code).replace("/", " ") or "none")
