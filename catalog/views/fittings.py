"""Acts at a position: reserving, trying, fitting, giving up, taking off and putting back."""

from collections.abc import Callable

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpResponse, HttpResponseRedirect
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.fits import TrialForm
from catalog.forms.fittings import RemovalForm
from catalog.http import MemberRequest
from catalog.models import Fitting, Part, Position, Removal, Vehicle
from catalog.models.members import Role
from catalog.operations.fittings import (
    begin_trial,
    fit_part,
    record_trial,
    release_reservation,
    reserve_part,
)
from catalog.operations.parts import change_part
from catalog.operations.photos import add_photos
from catalog.operations.removals import put_back, remove_part
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, sent, show_form
from catalog.views.trials import tell_trial

ACTS: dict[str, tuple[Callable[..., Fitting], str]] = {
    "reserve": (reserve_part, "{part} is reserved for {code} of {vehicle}."),
    "try": (begin_trial, "{part} is on trial at {code} of {vehicle}. Record how it goes."),
    "fit": (fit_part, "{part} is fitted at {code} of {vehicle}."),
}


@require_POST
def position_put(request: MemberRequest, slug: str, pk: int) -> HttpResponse:
    """Reserve, try or fit a part at this position, as the button says: ``fit 17``."""
    named, _, number = request.POST.get("put", "").partition(" ")
    if named not in ACTS or not number.isdecimal():
        raise Http404("A part is reserved, tried or fitted.")
    vehicle = fetch(Vehicle.objects.all(), request, Role.CURATOR, slug=slug)
    position = fetch(Position.objects.select_related("component"), request, Role.CURATOR, pk=pk)
    part = fetch(Part.objects.all(), request, Role.CURATOR, pk=int(number))
    act, words = ACTS[named]
    told = words.format(part=part, code=position.code, vehicle=vehicle)
    _do(request, lambda: act(part, vehicle, position, by=request.user), told)
    return _back(request, vehicle, position)


@require_POST
def fitting_release(request: MemberRequest, pk: int) -> HttpResponse:
    fitting = _fitting(request, pk)
    told = f"{fitting.part} is free again."
    _do(request, lambda: release_reservation(fitting, by=request.user), told)
    return _back(request, fitting.vehicle, fitting.position)


@require_http_methods(["GET", "HEAD", "POST"])
def fitting_remove(request: MemberRequest, pk: int) -> HttpResponse:
    """Take a fitted part off, with what is needed to put it back."""
    fitting = _fitting(request, pk)
    form = RemovalForm(*sent(request))
    if form.is_valid():
        with refusals_shown_in(form):
            removal = remove_part(fitting, by=request.user, **form.values())
            messages.success(request, f"{fitting.part} is off. Its place in the order is kept.")
            _keep_with(request, removal, form)
            return redirect("vehicle-dismantling", fitting.vehicle.slug)
    where = f"{fitting.position} of {fitting.vehicle}"
    page = FormPage(
        heading=f"Take {fitting.part} off {where}",
        back=_list_left(request, fitting.vehicle) or _address(fitting.vehicle, fitting.position),
        lead="What you write here is what puts it back the same way. All of it may stay empty.",
        save="It is off",
    )
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def trial_record(request: MemberRequest, slug: str, pk: int, part_pk: int) -> HttpResponse:
    """Record how a part went at a position; anybody who tried it may."""
    vehicle = fetch(Vehicle.objects.kept(), request, slug=slug)
    position = fetch(Position.objects.select_related("component"), request, pk=pk)
    part = fetch(Part.objects.kept(), request, pk=part_pk)
    form = TrialForm(*sent(request))
    if form.is_valid():
        with refusals_shown_in(form):
            told = form.values()
            trial = record_trial(part, vehicle=vehicle, position=position, by=request.user, **told)
            tell_trial(request, trial, form.cleaned_data["photos"], page="position")
            return redirect(_address(vehicle, position))
    heading = f"How {part} went at {position} of {vehicle}"
    return show_form(request, form, FormPage(heading, _address(vehicle, position)))


@require_POST
def removal_put_back(request: MemberRequest, pk: int) -> HttpResponse:
    rows = Removal.objects.select_related("part", "vehicle", "position__component")
    removal = fetch(rows, request, Role.CURATOR, pk=pk)
    told = f"{removal.part} is back at {removal.position.code} of {removal.vehicle}."
    _do(request, lambda: put_back(removal, by=request.user), told)
    return _back(request, removal.vehicle, removal.position)


def _keep_with(request: MemberRequest, removal: Removal, form: RemovalForm) -> None:
    """Keep the photos and tie on the tag; a refusal of these does not put the part back."""
    photos, tag = form.cleaned_data["photos"], form.cleaned_data["tag"]
    _, refused = add_photos(photos, by=request.user, removal=removal, role="in_place")
    for words in refused:
        messages.error(request, words)
    if tag:
        told = f"Tag {tag} is tied to {removal.part}."
        _do(request, lambda: change_part(removal.part, {"tag": tag}, by=request.user), told)


def _fitting(request: MemberRequest, pk: int) -> Fitting:
    rows = Fitting.objects.select_related("part", "vehicle", "position__component")
    return fetch(rows, request, Role.CURATOR, pk=pk)


def _do(request: MemberRequest, act: Callable[[], object], told: str) -> None:
    """Do one act and say so, or say why it was refused."""
    try:
        act()
    except ValidationError as refusal:
        for words in refusal.messages:
            messages.error(request, words)
    else:
        messages.success(request, told)


def _back(request: MemberRequest, vehicle: Vehicle, position: Position) -> HttpResponseRedirect:
    """Return to the list that the person came from, at the same line, or to the position."""
    if request.POST.get("back") == "vehicle":
        list_address = reverse("vehicle-needs", args=[vehicle.slug])
        return HttpResponseRedirect(f"{list_address}#position-{position.pk}")
    if left := _list_left(request, vehicle):
        return HttpResponseRedirect(left)
    return HttpResponseRedirect(_address(vehicle, position))


def _list_left(request: MemberRequest, vehicle: Vehicle) -> str:
    """Return the dismantling page, if the person came from there."""
    named = {request.POST.get("back"), request.GET.get("back")}
    return reverse("vehicle-dismantling", args=[vehicle.slug]) if "dismantling" in named else ""


def _address(vehicle: Vehicle, position: Position) -> str:
    return reverse("position-detail", args=[vehicle.slug, position.pk])
