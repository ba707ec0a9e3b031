"""Photos on the screen: adding them to records, saying what they show, pointing at things."""

from typing import Any

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.db import models
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.base import ReasonForm
from catalog.forms.photos import PhotoForm, PhotosForm, SpotForm
from catalog.http import MemberRequest
from catalog.models import Photo, PhotoSpot, Role
from catalog.operations.photos import (
    add_photos,
    bring_back_photo,
    change_photo,
    make_main_photo,
    point_at,
    remove_spot,
    withdraw_photo,
)
from catalog.queries.photos import PICTURED_KINDS, numbered_spots, pictured, same_elsewhere
from catalog.queries.publication import visibility_of
from catalog.views.fetch import fetch, fetch_any, refusals_shown_in, refusals_told
from catalog.views.form_pages import sent


@require_safe
def photo_detail(request: MemberRequest, pk: int) -> HttpResponse:
    return _page(request, _photo(request, pk))


@require_http_methods(["GET", "HEAD", "POST"])
def photo_add(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    if kind not in PICTURED_KINDS:
        raise Http404(f"Photos are not added to a {kind}.")
    record = fetch_any(kind, pk, request)
    form = PhotosForm(*sent(request))
    if form.is_valid():
        shown: Any = {PICTURED_KINDS[kind]: record, "role": form.cleaned_data["role"]}
        _tell(request, *add_photos(form.cleaned_data["photos"], by=request.user, **shown))
        return redirect(_page_of(record, reverse("photo-add", args=[kind, pk])))
    context = {"record": record, "kind": kind, "form": form, "url": _page_of(record, "")}
    return render(request, "catalog/photos/add.html", context)


@require_POST
def photo_change(request: MemberRequest, pk: int) -> HttpResponse:
    photo = _photo(request, pk)
    form = PhotoForm(request.POST, instance=photo, may_publish=request.user.may(Role.CURATOR))
    if form.is_valid():
        with refusals_shown_in(form):
            change_photo(photo, form.values(), by=request.user, seen=form.seen_version)
            messages.success(request, "Saved.")
            return redirect(photo)
    return _page(request, photo, form=form)


@require_POST
def photo_main(request: MemberRequest, pk: int) -> HttpResponse:
    photo = _photo(request, pk)
    with refusals_told(request):
        make_main_photo(photo, by=request.user)
        messages.success(request, "This is now the main photo.")
    return redirect(photo)


@require_POST
def photo_point(request: MemberRequest, pk: int) -> HttpResponse:
    photo = _photo(request, pk)
    form = SpotForm(request.POST)
    if form.is_valid():
        with refusals_shown_in(form):
            spot = form.cleaned_data
            x, y = spot["across"] / 100, spot["down"] / 100
            point_at(photo, x, y, spot["words"], by=request.user)
            return redirect(photo)
    return _page(request, photo, spot_form=form)


@require_POST
def photo_spot_remove(request: MemberRequest, pk: int, spot: int) -> HttpResponse:
    found = fetch(PhotoSpot.objects.select_related("photo"), request, pk=spot, photo=pk)
    remove_spot(found, by=request.user)
    messages.success(request, f"“{found.words}” is no longer pointed at.")
    return redirect(found.photo)


@require_POST
def photo_withdraw(request: MemberRequest, pk: int) -> HttpResponse:
    photo = _own_photo(request, pk)
    form = ReasonForm(request.POST)
    if form.is_valid():
        with refusals_shown_in(form):
            withdraw_photo(photo, by=request.user, reason=form.cleaned_data["reason"])
            messages.success(request, "Withdrawn. It can be brought back here.")
            return redirect(photo)
    return _page(request, photo, reason_form=form)


@require_POST
def photo_bring_back(request: MemberRequest, pk: int) -> HttpResponse:
    photo = bring_back_photo(_own_photo(request, pk), by=request.user)
    messages.success(request, "Brought back.")
    return redirect(photo)


def _tell(request: MemberRequest, added: list[Photo], refused: list[str]) -> None:
    if added:
        count = "1 photo" if len(added) == 1 else f"{len(added)} photos"
        messages.success(request, f"{count} added.")
    names = {photo.sha256: photo.original_name for photo in added}
    for other, record in same_elsewhere(added):
        messages.warning(request, f"{names[other.sha256]} is also at {record}.")
    for words in refused:
        messages.error(request, words)


def _photo(request: MemberRequest, pk: int) -> Photo:
    return fetch(Photo.objects.select_related("added_by", "withdrawn_by"), request, pk=pk)


def _own_photo(request: MemberRequest, pk: int) -> Photo:
    """Return a photo that the member may withdraw: their own, or any for a curator."""
    photo = _photo(request, pk)
    if photo.added_by != request.user and not request.user.may(Role.CURATOR):
        raise PermissionDenied("Others' photos are withdrawn by a curator of the group.")
    return photo


def _page_of(record: models.Model, otherwise: str) -> str:
    find = getattr(record, "get_absolute_url", None)
    return find() if find else otherwise


def _page(request: MemberRequest, photo: Photo, **forms: Any) -> HttpResponse:
    record = pictured(photo)
    may_publish = request.user.may(Role.CURATOR)
    context = {
        "photo": photo,
        "title": photo.caption or f"Photograph: {photo.get_role_display()}",
        "record": record,
        "record_url": _page_of(record, ""),
        "spots": numbered_spots(photo),
        "elsewhere": same_elsewhere([photo]),
        "form": PhotoForm(instance=photo, may_publish=may_publish),
        "spot_form": SpotForm(),
        "reason_form": ReasonForm(),
        "visibility": visibility_of(photo),
        "is_own": photo.added_by == request.user or request.user.may(Role.CURATOR),
        **forms,
    }
    return render(request, "catalog/photos/detail.html", context)
