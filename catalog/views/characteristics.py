"""What is measured on a component, what it mates with, and the marks it is known to carry."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.components import CharacteristicForm, KnownMarkForm, MatingRuleForm
from catalog.http import MemberRequest
from catalog.models import Characteristic, Component, KnownMark, MatingRule
from catalog.models.members import Role
from catalog.operations import components as operations
from catalog.operations.marks import add_known_mark, change_known_mark, remove_known_mark
from catalog.views.fetch import fetch, refusals_shown_in, refusals_told
from catalog.views.form_pages import FormPage, sent, show_form


@require_http_methods(["GET", "HEAD", "POST"])
def characteristic_add(request: MemberRequest, pk: int) -> HttpResponse:
    component = fetch(Component.objects.kept(), request, pk=pk)
    form = CharacteristicForm(*sent(request), component=component)
    if form.is_valid():
        with refusals_shown_in(form):
            row = operations.add_characteristic(component, **form.values(), by=request.user)
            return redirect(_on_page(row))
    page = FormPage(f"What is measured on a {component}", component.get_absolute_url())
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def characteristic_change(request: MemberRequest, pk: int) -> HttpResponse:
    row = fetch(Characteristic.objects.select_related("component"), request, pk=pk)
    page = FormPage(
        f"Change {row} of {row.component}",
        row.component.get_absolute_url(),
        remove_url=_for_curators(request, "characteristic-remove", pk),
        remove_words="Remove this characteristic",
    )
    form = CharacteristicForm(*sent(request), instance=row, component=row.component)
    if form.is_valid():
        with refusals_shown_in(form):
            values, seen = form.values(), form.seen_version
            file = values.pop("file")
            operations.change_characteristic(row, values, file=file, by=request.user, seen=seen)
            return redirect(_on_page(row))
    return show_form(request, form, page)


@require_POST
def characteristic_remove(request: MemberRequest, pk: int) -> HttpResponse:
    rows = Characteristic.objects.select_related("component")
    row = fetch(rows, request, Role.CURATOR, pk=pk)
    with refusals_told(request):
        operations.remove_characteristic(row, by=request.user)
        messages.success(request, f"{row} is no longer measured on a {row.component}.")
    return redirect(row.component)


@require_http_methods(["GET", "HEAD", "POST"])
def mating_rule_add(request: MemberRequest, pk: int) -> HttpResponse:
    component = fetch(Component.objects.kept(), request, Role.CURATOR, pk=pk)
    form = MatingRuleForm(request.POST if request.method == "POST" else None, component=component)
    if form.is_valid():
        with refusals_shown_in(form):
            rule = operations.add_mating_rule(**form.values(), by=request.user)
            messages.success(request, f"The rule for {rule.in_full} is recorded.")
            return redirect(component)
    return show_form(request, form, _rule_page("Add a mating rule", component))


@require_http_methods(["GET", "HEAD", "POST"])
def mating_rule_change(request: MemberRequest, pk: int) -> HttpResponse:
    rows = MatingRule.objects.select_related("outer__component", "inner__component")
    rule = fetch(rows, request, Role.CURATOR, pk=pk)
    component, remove_url = rule.outer.component, reverse("mating-rule-remove", args=[pk])
    form = MatingRuleForm(request.POST if request.method == "POST" else None, instance=rule)
    if form.is_valid():
        with refusals_shown_in(form):
            values, seen = form.values(), form.seen_version
            operations.change_mating_rule(rule, values, by=request.user, seen=seen)
            told = f"The rule for {rule.in_full} is saved. The former version is in the history."
            messages.success(request, told)
            return redirect(component)
    page = _rule_page("Change a mating rule", component, remove_url)
    return show_form(request, form, page)


@require_POST
def mating_rule_remove(request: MemberRequest, pk: int) -> HttpResponse:
    rows = MatingRule.objects.select_related("outer__component", "inner__component")
    rule = fetch(rows, request, Role.CURATOR, pk=pk)
    operations.remove_mating_rule(rule, by=request.user)
    messages.success(request, f"The rule for {rule.in_full} is removed.")
    return redirect(rule.outer.component)


@require_http_methods(["GET", "HEAD", "POST"])
def known_mark_add(request: MemberRequest, pk: int) -> HttpResponse:
    component = fetch(Component.objects.kept(), request, pk=pk)
    form = KnownMarkForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            mark = add_known_mark(component, **form.values(), by=request.user)
            messages.success(request, f"A {component} is known by “{mark}” now.")
            return redirect(component)
    page = FormPage(f"A mark that a {component} is known by", component.get_absolute_url())
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def known_mark_change(request: MemberRequest, pk: int) -> HttpResponse:
    mark = fetch(KnownMark.objects.select_related("component"), request, pk=pk)
    component = mark.component
    page = FormPage(
        f"Change “{mark}”, a mark that a {component} is known by",
        component.get_absolute_url(),
        remove_url=_for_curators(request, "known-mark-remove", pk),
        remove_words="Remove this mark",
    )
    form = KnownMarkForm(request.POST if request.method == "POST" else None, instance=mark)
    if form.is_valid():
        with refusals_shown_in(form):
            change_known_mark(mark, form.values(), by=request.user, seen=form.seen_version)
            messages.success(request, f"Mark “{mark}” saved. The former version is in the history.")
            return redirect(component)
    return show_form(request, form, page)


@require_POST
def known_mark_remove(request: MemberRequest, pk: int) -> HttpResponse:
    rows = KnownMark.objects.select_related("component")
    mark = fetch(rows, request, Role.CURATOR, pk=pk)
    remove_known_mark(mark, by=request.user)
    messages.success(request, f"“{mark}” is no longer a known mark.")
    return redirect(mark.component)


def _on_page(row: Characteristic) -> str:
    """Return where on the page of its component a characteristic stands."""
    return f"{row.component.get_absolute_url()}#characteristic-{row.pk}"


def _for_curators(request: MemberRequest, name: str, pk: int) -> str:
    return reverse(name, args=[pk]) if request.user.may(Role.CURATOR) else ""


def _rule_page(heading: str, component: Component, remove_url: str = "") -> FormPage:
    return FormPage(
        heading,
        component.get_absolute_url(),
        lead="The clearance is the outer piece's size less the inner piece's.",
        remove_url=remove_url,
        remove_words="Remove this rule",
    )
