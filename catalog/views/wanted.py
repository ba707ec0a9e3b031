"""The public pages of wants: a list, each want with its form for answers, a sheet and a feed."""

from typing import Any

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.contrib.syndication.views import Feed
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.feedgenerator import Atom1Feed
from django.utils.html import linebreaks
from django.views.decorators.http import require_http_methods, require_safe

from catalog.forms.wants import AnswerForm
from catalog.models import Want
from catalog.models.wants import WantQuerySet
from catalog.operations.answers import receive_answer, sender_digest
from catalog.printing.papers import paper_named
from catalog.printing.wanted import wanted_sheet
from catalog.queries.public_wants import public_want, public_wants
from catalog.queries.wants import want_sheet
from catalog.views.fetch import refusals_shown_in
from catalog.views.papers import full_address, pdf_answer

MOST_IN_FEED = 50


@login_not_required
@require_safe
def wanted_list(request: HttpRequest) -> HttpResponse:
    context = {"rows": public_wants(), "address": full_address(request, request.path)}
    return render(request, "catalog/wanted/list.html", context)


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
def wanted_detail(request: HttpRequest, slug: str) -> HttpResponse:
    want = get_object_or_404(Want.objects.once_published().for_detail(), slug=slug)
    if not want.is_public:
        return _closed(request)
    form = AnswerForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            sender = sender_digest(_sender(request))
            receive_answer(want, form.values(), sender=sender)
            return redirect("wanted-thanks", want.slug)
    told = public_want(want)
    pictured = full_address(request, told.picture.url_960) if told.picture else ""
    address = full_address(request, want.get_public_url())
    context = {"told": told, "form": form, "address": address, "pictured": pictured}
    return render(request, "catalog/wanted/detail.html", context)


@login_not_required
@require_safe
def wanted_thanks(request: HttpRequest, slug: str) -> HttpResponse:
    want = get_object_or_404(Want.objects.once_published(), slug=slug)
    # It may have closed since the answer was sent: the writer is thanked all the same.
    title = want.title if want.is_public else ""
    return render(request, "catalog/wanted/thanks.html", {"title": title})


@login_not_required
@require_safe
def wanted_print(request: HttpRequest, slug: str) -> HttpResponse:
    want = get_object_or_404(Want.objects.once_published().for_detail(), slug=slug)
    if not want.is_public:
        return _closed(request)
    address = full_address(request, want.get_public_url())
    paper = paper_named(request.GET.get("paper", ""))
    sheet = want_sheet(want, for_visitor=True)
    return pdf_answer(wanted_sheet(sheet, address=address, paper=paper), f"wanted-{want.slug}")


class WantedFeed(Feed):  # type: ignore[type-arg]
    """The newest wants, for whoever follows them with a feed reader."""

    feed_type = Atom1Feed

    def title(self) -> str:
        return f"Wanted by {settings.SITE_NAME}"

    def author_name(self) -> str:
        return str(settings.SITE_NAME)

    def subtitle(self) -> str:
        return "Pieces, photographs and drawings that would help."

    def link(self) -> str:
        return reverse("wanted")

    def items(self) -> WantQuerySet:
        return Want.objects.published().order_by("-published_at", "-pk")[:MOST_IN_FEED]

    def item_title(self, item: Any) -> str:
        return str(item.title)

    def item_description(self, item: Any) -> str:
        """Return the words as HTML, for that is what the feed says they are."""
        return linebreaks("\n\n".join(filter(None, (item.words, item.dimensions))), autoescape=True)

    def item_link(self, item: Want) -> str:
        return item.get_public_url()

    def item_updateddate(self, item: Want) -> Any:
        return item.published_at


feed = login_not_required(require_safe(WantedFeed()))


def _closed(request: HttpRequest) -> HttpResponse:
    """Say that nothing more is needed, and give back what was typed: it may suit another want.

    Nothing of the want itself is told, as it may have been taken back.
    """
    names = ("words", "name", "contact")
    typed = [text for name in names if (text := request.POST.get(name, "").strip())]
    return render(request, "catalog/wanted/closed.html", {"typed": typed}, status=410)


def _sender(request: HttpRequest) -> str:
    """Return where the request comes from; behind a proxy, what the proxy itself wrote last."""
    if settings.BEHIND_PROXY:
        told = request.headers.get("X-Forwarded-For", "").rpartition(",")[2].strip()
        if told:
            return told
    return str(request.META.get("REMOTE_ADDR", ""))
