"""Answers to wants, for stewards: read, acknowledged, and made into what they are worth."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.wants import AcknowledgeForm, AnswerRemovalForm, AnswerSourceForm
from catalog.http import MemberRequest
from catalog.models import Answer
from catalog.models.members import Role
from catalog.models.wants import AnswerQuerySet
from catalog.operations.answers import (
    acknowledge_answer,
    answer_to_accession,
    answer_to_party,
    answer_to_source,
    remove_answer,
)
from catalog.views.fetch import fetch, members_only, refusals_shown_in, refusals_told
from catalog.views.pages import page_of

# Older ones are of no use to anybody.
MOST_REMOVED = 20


@require_safe
@members_only(Role.STEWARD)
def answer_list(request: MemberRequest) -> HttpResponse:
    context = {
        "page": page_of(_answers(), request),
        "waiting": Answer.objects.waiting().count(),
        "removed": Answer.objects.removed()[:MOST_REMOVED],
    }
    return render(request, "catalog/answers/list.html", context)


@require_safe
def answer_detail(request: MemberRequest, pk: int) -> HttpResponse:
    answer = fetch(Answer.objects.for_detail(), request, Role.STEWARD, pk=pk)
    if answer.is_removed:
        return render(request, "catalog/answers/removed.html", {"answer": answer})
    context = {
        "answer": answer,
        "acknowledge": AcknowledgeForm(initial={"came_of_it": answer.came_of_it}),
        "source": AnswerSourceForm(),
    }
    return render(request, "catalog/answers/detail.html", context)


@require_POST
def answer_acknowledge(request: MemberRequest, pk: int) -> HttpResponse:
    answer = fetch(_answers(), request, Role.STEWARD, pk=pk)
    form = AcknowledgeForm(request.POST)
    with refusals_told(request):
        if form.is_valid():
            acknowledge_answer(answer, by=request.user, **form.cleaned_data)
            messages.success(request, f"The answer of {answer.name} is acknowledged.")
    return redirect("answer-list")


@require_POST
def answer_source(request: MemberRequest, pk: int) -> HttpResponse:
    answer = fetch(_answers(), request, Role.STEWARD, pk=pk)
    form = AnswerSourceForm(request.POST)
    with refusals_told(request):
        if form.is_valid():
            source = answer_to_source(answer, by=request.user, **form.cleaned_data)
            messages.success(request, f"“{source}” is a source now.")
    return redirect("answer-detail", pk)


@require_POST
def answer_accession(request: MemberRequest, pk: int) -> HttpResponse:
    answer = fetch(_answers(), request, Role.STEWARD, pk=pk)
    with refusals_told(request):
        accession = answer_to_accession(answer, by=request.user)
        messages.success(request, f"Accession {accession} is open for it.")
    return redirect("answer-detail", pk)


@require_POST
def answer_party(request: MemberRequest, pk: int) -> HttpResponse:
    answer = fetch(_answers(), request, Role.STEWARD, pk=pk)
    with refusals_told(request):
        party = answer_to_party(answer, by=request.user)
        messages.success(request, f"{party} is a party now.")
    return redirect("answer-detail", pk)


@require_http_methods(["GET", "HEAD", "POST"])
def answer_remove(request: MemberRequest, pk: int) -> HttpResponse:
    answer = fetch(_answers(), request, Role.STEWARD, pk=pk)
    form = AnswerRemovalForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            remove_answer(answer, why=form.cleaned_data["why"], by=request.user)
            messages.success(request, "The answer is removed, and what its writer gave is erased.")
            return redirect("answer-detail", pk)
    return render(request, "catalog/answers/remove.html", {"answer": answer, "form": form})


def _answers() -> AnswerQuerySet:
    return Answer.objects.for_list()
