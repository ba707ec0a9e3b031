"""Trials on the screen: told once they are recorded, and taken back."""

from collections.abc import Sequence

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST

from catalog.http import MemberRequest
from catalog.models import Trial
from catalog.operations.fittings import take_back_trial
from catalog.operations.photos import add_photos
from catalog.queries.trials import gave_up, what_stays
from catalog.views.fetch import fetch, refusals_told
from catalog.views.undo import told_with_undo


@require_POST
def trial_take_back(request: MemberRequest, pk: int) -> HttpResponse:
    rows = Trial.objects.kept().select_related("part", "other_part", "vehicle", "position")
    trial = fetch(rows, request, pk=pk)
    with refusals_told(request):
        take_back_trial(trial, by=request.user)
        told = f"The trial of {trial.part} is taken back. It stays in the history."
        messages.success(request, f"{told} {what_stays(trial)}".strip())
    return redirect(_page(trial, request.POST.get("page", "")))


def tell_trial(
    request: MemberRequest, trial: Trial, photos: Sequence[UploadedFile], *, page: str
) -> None:
    """Say what was recorded, with a way back, and keep the photos; a bad one spoils nothing."""
    told = f"Recorded: {trial.part} {trial.get_outcome_display()}."
    if where := gave_up(trial):
        told = f"{told} It has given up {where}."
    address = reverse("trial-take-back", args=[trial.pk])
    told_with_undo(request, told, address, [("page", page)])
    _, refused = add_photos(photos, by=request.user, trial=trial)
    for words in refused:
        messages.warning(request, words)


def _page(trial: Trial, named: str) -> str:
    """Return the address of the page that the trial was taken back on."""
    if named == "bench":
        return trial.get_absolute_url()
    if named == "position" and trial.vehicle is not None:
        return reverse("position-detail", args=[trial.vehicle.slug, trial.position_id])
    if named == "other" and trial.other_part is not None:
        return trial.other_part.get_absolute_url()
    return trial.part.get_absolute_url()
