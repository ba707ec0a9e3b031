"""Where a phone's queue sends what was taken in or moved without a signal, each thing once."""

from collections.abc import Mapping
from hashlib import sha256
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.http import HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.utils.cache import get_conditional_response
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_http_methods, require_safe

from catalog.forms.synced import SentMoveForm, SentPhotoForm, SentPieceForm, problems_in
from catalog.http import MemberRequest
from catalog.models import Part
from catalog.operations.captures import Capture, take_in, taken_in
from catalog.operations.noted_moves import move_as_noted
from catalog.operations.photos import record_photo
from catalog.operations.picture_files import keep_picture
from catalog.queries.places import find_parts
from catalog.queries.reference import reference_for
from catalog.reckoning.codes import is_valid_tag_code
from catalog.turns import in_turn
from catalog.views.phone_answers import (
    RefusalError,
    for_the_phone,
    in_words,
    received_file,
    refuse_another_members,
    told_in,
)


@for_the_phone
@require_safe
def session(request: MemberRequest) -> HttpResponse:
    """Say who is signed in, with the token that this sign-in's sending needs."""
    who = {"user": request.user.pk, "name": str(request.user), "csrf": get_token(request)}
    return JsonResponse(who)


@for_the_phone
@require_safe
@gzip_page
def reference(request: MemberRequest) -> HttpResponse:
    lists = JsonResponse({"user": request.user.pk, **reference_for(request.user)})
    lists["ETag"] = f'"{sha256(lists.content).hexdigest()[:32]}"'
    unchanged = get_conditional_response(request, etag=lists["ETag"], response=lists)
    return unchanged if isinstance(unchanged, HttpResponse) else lists


@for_the_phone
@require_http_methods(["PUT"])
def piece(request: MemberRequest, piece_id: UUID) -> HttpResponse:
    told = told_in(request)
    refuse_another_members(request, told)
    if former := _former(request, piece_id):
        return JsonResponse({**_echo(former), "photos": _arrived(former)})
    form = SentPieceForm(told)
    if not form.is_valid():
        raise _refused(told, problems_in(form))
    try:
        capture: Capture = {**form.values(), "capture_id": piece_id}
        with in_turn():
            part = take_in(by=request.user, **capture)
    except ValidationError as refusal:
        raise _refused(told, in_words(refusal)) from refusal
    return JsonResponse({**_echo(part), "photos": {}}, status=201)


@for_the_phone
@require_http_methods(["PUT"])
def photo(request: MemberRequest, piece_id: UUID, photo_id: UUID) -> HttpResponse:
    with received_file(request) as (file, digest):
        part = _former(request, piece_id)
        if part is None:
            raise RefusalError(409, "The piece of this photo has not arrived.", again=True)
        form = SentPhotoForm(request.GET)
        if not form.is_valid():
            raise RefusalError(422, problems_in(form))
        is_replay = part.photos.filter(capture_id=photo_id, sha256=digest).exists()
        if not is_replay:
            told = form.values()
            picture = keep_picture(file, name=told["name"])
            with in_turn():
                record_photo(picture, by=request.user, part=part, capture_id=photo_id, **told)
    echo = {"id": str(photo_id), "sha256": digest}
    return JsonResponse(echo, status=200 if is_replay else 201)


@for_the_phone
@require_http_methods(["PUT"])
def move(request: MemberRequest, move_id: UUID) -> HttpResponse:
    told = told_in(request)
    refuse_another_members(request, told)
    form = SentMoveForm(told)
    if not form.is_valid():
        raise RefusalError(422, problems_in(form))
    parts, unknown = find_parts(form.cleaned_data["pieces"])
    if unknown:
        raise RefusalError(422, {"pieces": [f"No part goes by {', '.join(unknown)}."]})
    place, note = form.location_meant, form.cleaned_data["note"]
    with in_turn():
        move_as_noted(parts, location=place, note=note, by=request.user, at=form.moment())
    address = place.get_absolute_url() if place else ""
    return JsonResponse({"id": str(move_id), "label": str(place), "address": address})


def _former(request: MemberRequest, piece_id: UUID) -> Part | None:
    try:
        return taken_in(piece_id, by=request.user)
    except ValidationError as refusal:
        raise RefusalError(409, in_words(refusal)) from refusal


def _refused(told: Mapping[str, Any], problems: Mapping[str, list[str]]) -> RefusalError:
    """Tell a good tag that is on something else, a conflict, from a mistake."""
    is_conflict = "tag" in problems and is_valid_tag_code(str(told.get("tag")))
    return RefusalError(409 if is_conflict else 422, problems)


def _echo(part: Part) -> dict[str, Any]:
    address = part.get_absolute_url()
    return {"id": str(part.capture_id), "label": part.label, "address": address}


def _arrived(part: Part) -> dict[str, str]:
    """Return the photos that have arrived, so that only the others are sent."""
    photos = part.photos.filter(capture_id__isnull=False).values_list("capture_id", "sha256")
    return {str(capture_id): digest for capture_id, digest in photos}
