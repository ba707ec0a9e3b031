"""The home page: the shop today for members, the published vehicles for everybody else."""

from contextlib import suppress

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalog.http import is_looked_at
from catalog.operations.visits import note_visit
from catalog.queries.changes import news_of
from catalog.queries.lately import happenings
from catalog.queries.shop import shop_today
from catalog.queries.visits import is_to_be_noted, stay_of
from catalog.reckoning.stays import opened
from catalog.turns import BusyError, impatient
from catalog.views.fetch import require
from catalog.views.public import is_visitor, public_home


@login_not_required
@require_safe
def home(request: HttpRequest) -> HttpResponse:
    if is_visitor(request):
        return public_home(request)
    shop = shop_today(require(request))
    return render(request, "catalog/shop/today.html", {"shop": shop, **_news(request)})


def _news(request: HttpRequest) -> dict[str, object]:
    """Return what others did since the member's last visit; on the first one, the latest of all."""
    member, now = require(request), timezone.now()
    stay = stay_of(member)
    if is_looked_at(request) and is_to_be_noted(stay, now):
        # Nobody waits for the page while a long list is read in: the next look is noted instead.
        with suppress(BusyError), impatient():
            note_visit(member, at=now)
        stay = opened(stay, now)
    if stay is None or stay.since is None:
        return {"lately": happenings()}
    return {"news": news_of(member, stay.since)}
