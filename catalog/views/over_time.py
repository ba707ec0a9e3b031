"""How complete the vehicles were over time, drawn and in figures."""

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog.http import MemberRequest
from catalog.queries import over_time as courses
from catalog.queries.plans import vehicles_to_plan
from catalog.views.fetch import members_only

MOST = 60


@require_safe
@members_only()
def over_time(request: MemberRequest) -> HttpResponse:
    found = courses.over_time(vehicles_to_plan()[:MOST])
    return render(request, "catalog/needs/over_time.html", {"found": found})
