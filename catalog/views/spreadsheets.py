"""Lists to take away: the same choice of parts, or all open needs, as a spreadsheet."""

from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalog.exchange.spreadsheets import file_name, needs_as_csv, parts_as_csv, plan_as_csv
from catalog.filters.parts import PartFilter
from catalog.http import MemberRequest
from catalog.models import Plan
from catalog.queries.needs import needs_of_shop
from catalog.queries.part_lists import parts_chosen
from catalog.queries.plan_outcomes import outcome_of
from catalog.queries.plans import vehicles_to_plan
from catalog.views.fetch import members_only
from catalog.views.papers import csv_answer


@require_safe
@members_only()
def part_spreadsheet(request: MemberRequest) -> HttpResponse:
    chosen = PartFilter(request.GET)
    return _file("parts", parts_as_csv(parts_chosen(chosen.qs, chosen.indexed_words)))


@require_safe
@members_only()
def needs_spreadsheet(request: MemberRequest) -> HttpResponse:
    vehicles = vehicles_to_plan()
    found = needs_of_shop(vehicles)
    return _file("needs", needs_as_csv(found[vehicle.pk] for vehicle in vehicles))


@require_safe
@members_only()
def plan_spreadsheet(request: MemberRequest, pk: int) -> HttpResponse:
    plan = get_object_or_404(Plan, pk=pk)
    outcome = outcome_of(plan)
    if outcome is None:
        raise Http404(f"“{plan}” is not worked out yet.")
    return _file(f"plan {plan.pk}", plan_as_csv(outcome))


def _file(what: str, data: bytes) -> HttpResponse:
    return csv_answer(data, file_name(what, timezone.localtime()))
