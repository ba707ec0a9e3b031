"""One page for the form of whatever belongs to a record: fill in, save, or take it off."""

from dataclasses import dataclass
from typing import Any

from django.forms import BaseForm
from django.http import HttpResponse
from django.shortcuts import render

from catalog.http import MemberRequest


@dataclass(frozen=True, slots=True)
class FormPage:
    """What stands around the fields: a heading, the way back, and where to take the row off.

    ``shown`` is what helps to fill them in, drawn already.
    """

    heading: str
    back: str
    lead: str = ""
    save: str = "Save"
    remove_url: str = ""
    remove_words: str = "Remove"
    shown: str = ""


def show_form(request: MemberRequest, form: BaseForm, page: FormPage) -> HttpResponse:
    return render(request, "catalog/records/form.html", {"form": form, "page": page})


def sent(request: MemberRequest) -> tuple[Any, Any]:
    """Return what was filled in and the files with it, or nothing where the form is only shown."""
    return (request.POST, request.FILES) if request.method == "POST" else (None, None)
