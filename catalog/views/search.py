"""One field to find anything: a number or tag leads straight on, words to what holds them."""

from itertools import groupby

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from catalog.models import Part
from catalog.queries.search import MODELS, Result, exactly, search
from catalog.views.public import is_visitor

LIMIT = 50


@login_not_required
@require_safe
def find(request: HttpRequest) -> HttpResponse:
    words = request.GET.get("words", "").strip()
    for_visitor = is_visitor(request)
    record = exactly(words)
    if record is not None and (not for_visitor or _is_shown(record)):
        return redirect(record)
    results = search(words, limit=LIMIT, published_only=for_visitor)
    context = {"words": words, "groups": _groups(results), "limit": LIMIT}
    return render(request, "catalog/search/find.html", context)


def _is_shown(record: object) -> bool:
    return isinstance(record, Part) and record.is_published and not record.is_withdrawn


def _groups(results: tuple[Result, ...]) -> list[tuple[str, list[Result]]]:
    """Return the results kind by kind, parts last, for they are many."""
    kinds = {kind: place for place, kind in enumerate([*sorted(set(MODELS) - {"part"}), "part"])}
    ordered = sorted(results, key=lambda result: kinds[result.kind])
    return [
        (str(MODELS[kind]._meta.verbose_name_plural), list(found))
        for kind, found in groupby(ordered, key=lambda result: result.kind)
    ]
