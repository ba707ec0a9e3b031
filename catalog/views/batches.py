"""Photos from a desk browser: many chosen at once, sent one a request."""

from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.batches import BatchForm, OnePhotoForm
from catalog.forms.photos import OneMorePhotoForm
from catalog.http import MemberRequest
from catalog.operations.batches import take_in_photo, take_in_photos
from catalog.operations.photos import add_photo
from catalog.queries.photos import PICTURED_KINDS, same_elsewhere
from catalog.views.fetch import fetch_any, members_only
from catalog.views.form_pages import sent


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def photo_batch(request: MemberRequest) -> HttpResponse:
    form = BatchForm(*sent(request), initial={"accession": request.GET.get("accession")})
    if form.is_valid():
        told = form.cleaned_data
        parts, refused = take_in_photos(
            told["photos"], by=request.user, together=told["together"], **form.where()
        )
        _tell(request, len(parts), refused)
        return redirect(f"{reverse('photo-batch')}?{urlencode(_kept(form))}")
    return render(request, "catalog/photos/batch.html", {"form": form})


@require_POST
@members_only()
def photo_batch_add(request: MemberRequest) -> JsonResponse:
    """Take in one photo of a batch, and answer in words for its line in the list."""
    form = OnePhotoForm(request.POST, request.FILES)
    if not form.is_valid():
        return _refused(form)
    told = form.cleaned_data
    try:
        part = take_in_photo(
            told["photos"][0],
            by=request.user,
            part=told["part"],
            capture_id=told["capture_id"],
            **form.where(),
        )
    except ValidationError as refusal:
        return JsonResponse({"problem": " ".join(refusal.messages)}, status=422)
    return JsonResponse({"part": part.pk, "words": part.label, "url": part.get_absolute_url()})


@require_POST
def photo_drop(request: MemberRequest, kind: str, pk: int) -> JsonResponse:
    """Add one of many photos to a record, and answer in words for its line in the list."""
    if kind not in PICTURED_KINDS:
        raise Http404(f"Photos are not added to a {kind}.")
    record = fetch_any(kind, pk, request)
    form = OneMorePhotoForm(request.POST, request.FILES)
    if not form.is_valid():
        return _refused(form)
    told = form.cleaned_data
    try:
        shown: Any = {PICTURED_KINDS[kind]: record, "role": told["role"]}
        photo = add_photo(
            told["photos"][0], by=request.user, capture_id=told["capture_id"], **shown
        )
    except ValidationError as refusal:
        return JsonResponse({"problem": " ".join(refusal.messages)}, status=422)
    also = "".join(f", also at {other}" for _, other in same_elsewhere([photo]))
    return JsonResponse({"words": f"added{also}", "url": photo.get_absolute_url()})


def _refused(form: OnePhotoForm | OneMorePhotoForm) -> JsonResponse:
    words = " ".join(str(problem) for problems in form.errors.values() for problem in problems)
    return JsonResponse({"problem": words}, status=422)


def _tell(request: MemberRequest, count: int, refused: list[str]) -> None:
    if count:
        parts = "1 part" if count == 1 else f"{count} parts"
        messages.success(request, f"{parts} taken in.")
    for words in refused:
        messages.error(request, words)


def _kept(form: BatchForm) -> dict[str, int]:
    accession = form.cleaned_data["accession"]
    return {"accession": accession.pk} if accession else {}
