"""Telling that something was done, with one button that takes it back."""

from collections.abc import Iterable

from django.contrib import messages
from django.http import HttpRequest
from django.template.loader import render_to_string


def told_with_undo(
    request: HttpRequest, sentence: str, address: str, values: Iterable[tuple[str, object]] = ()
) -> None:
    """Show ``sentence`` on the next page beside a button that posts ``values`` to ``address``."""
    context = {"sentence": sentence, "address": address, "values": values}
    messages.success(request, render_to_string("components/undo.html", context, request))
