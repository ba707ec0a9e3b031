"""Plans on the screen: made, watched while they are worked out, compared, applied, undone."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.plans import MOST_VEHICLES, ComparisonForm, PlanForm
from catalog.http import MemberRequest
from catalog.models import Plan
from catalog.models.members import Role
from catalog.operations.plan_work import work_plan
from catalog.operations.plans import apply_plan, make_plan, undo_plan
from catalog.queries.plan_outcomes import cautions_for, compared, outcome_of, still_to_reserve
from catalog.queries.plans import vehicles_to_plan
from catalog.reckoning.plurals import listed
from catalog.views.fetch import fetch, key_of, members_only, refusals_shown_in, refusals_told
from catalog.views.pages import page_of
from catalog.views.undo import told_with_undo

# So many vehicles are tried at once while somebody waits; more of them wait for the worker.
TRIED_AT_ONCE = 12
SECONDS_AT_ONCE = 1.0


@require_safe
@members_only()
def plan_list(request: MemberRequest) -> HttpResponse:
    page = page_of(Plan.objects.for_list(), request)
    return render(request, "catalog/plans/list.html", {"page": page})


@require_http_methods(["GET", "HEAD", "POST"])
@members_only(Role.CURATOR)
def plan_new(request: MemberRequest) -> HttpResponse:
    vehicles = vehicles_to_plan()[:MOST_VEHICLES]
    typed = request.POST if request.method == "POST" else None
    form = PlanForm(typed, vehicles=vehicles, like=_named(request, "like"))
    if form.is_valid():
        with refusals_shown_in(form):
            plan = make_plan(form.values(), by=request.user)
            if len(plan.inputs["numbers"]) <= TRIED_AT_ONCE:
                work_plan(plan, seconds=SECONDS_AT_ONCE)
            return redirect(plan)
    return render(request, "catalog/plans/form.html", {"form": form})


@require_safe
def plan_detail(request: MemberRequest, pk: int) -> HttpResponse:
    plan = fetch(Plan.objects.for_list(), request, pk=pk)
    outcome = outcome_of(plan)
    left = still_to_reserve(plan, outcome) if outcome else ()
    context = {
        "plan": plan,
        "outcome": outcome,
        "left": left,
        "standing": len(outcome.uses) - len(left) if outcome else 0,
        "cautions": cautions_for(outcome) if outcome else (),
        "others": Plan.objects.ready().exclude(pk=plan.pk)[:20],
        "cells": _cells(plan),
        "is_abandoned": plan.is_abandoned(),
        "is_left_lying": plan.is_left_lying(),
    }
    return render(request, "catalog/plans/detail.html", context)


@require_safe
@members_only()
def plan_compare(request: MemberRequest) -> HttpResponse:
    names = ("first", "second")
    if not all(request.GET.get(name) for name in names):
        return _choose_two(request)
    first, second = (_chosen(request, name) for name in names)
    one, other = outcome_of(first), outcome_of(second)
    context = {
        "first": first,
        "second": second,
        "outcomes": (one, other),
        "differences": compared(one, other) if one and other else [],
    }
    return render(request, "catalog/plans/compare.html", context)


@require_POST
def plan_apply(request: MemberRequest, pk: int) -> HttpResponse:
    plan = fetch(Plan.objects.all(), request, Role.CURATOR, pk=pk)
    again = f"{reverse('plan-new')}?like={plan.pk}"
    with refusals_told(request, offer=("Make the plan again", again)):
        made = apply_plan(plan, by=request.user)
        sentence = f"{len(made)} part{'' if len(made) == 1 else 's'} reserved as planned."
        sentence += _still_to_be_made(plan)
        told_with_undo(request, sentence, reverse("plan-undo", args=[plan.pk]))
    return redirect(plan)


@require_POST
def plan_undo(request: MemberRequest, pk: int) -> HttpResponse:
    plan = fetch(Plan.objects.all(), request, Role.CURATOR, pk=pk)
    with refusals_told(request):
        released, left = undo_plan(plan, by=request.user)
        stays = f" {left} stay, as they were tried or fitted since." if left else ""
        messages.success(request, f"{released} given up again.{stays}")
    return redirect(plan)


def _still_to_be_made(plan: Plan) -> str:
    outcome = outcome_of(plan)
    if outcome is None or not outcome.makes:
        return ""
    pieces = listed([one.counted for one in outcome.to_make])
    return f" Still to be made, and no part of the record yet: {pieces}."


def _choose_two(request: MemberRequest) -> HttpResponse:
    form = ComparisonForm(initial=request.GET.dict())
    context = {"form": form, "are_two_ready": Plan.objects.ready()[:2].count() == 2}
    return render(request, "catalog/plans/choose.html", context)


def _chosen(request: MemberRequest, name: str) -> Plan:
    return get_object_or_404(Plan, pk=key_of(request.GET.get(name, "")))


def _named(request: MemberRequest, name: str) -> Plan | None:
    return _chosen(request, name) if request.GET.get(name) else None


def _cells(plan: Plan) -> list[tuple[str, object]]:
    return [
        ("Standing", plan.get_state_display()),
        ("Made by", plan.made_by),
        ("Made on", plan.made_at),
        ("Vehicles", len(plan.inputs.get("numbers", []))),
        ("Applied", plan.applied_at),
    ]
