"""Paper: a template becomes a tagged PDF with the title block, page numbers and its QR code."""

import datetime as dt
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

import segno
from django.conf import settings
from django.contrib.staticfiles import finders
from django.core.files.storage import default_storage
from django.template.loader import render_to_string
from django.utils import timezone
from weasyprint import CSS, HTML
from weasyprint.document import Document
from weasyprint.urls import URLFetcher, URLFetcherResponse

from catalog.printing.papers import Paper

# Photos are printed from their JPEG copies, which pass into the file as they are; making them
# smaller while printing took four times as long.
OPTIONS = {"pdf_variant": "pdf/ua-1"}
PICTURE = "picture:"


class OwnFilesFetcher(URLFetcher):  # type: ignore[misc]
    """Fetch this site's own files only, and pictures from wherever photos are stored."""

    def __init__(self) -> None:
        super().__init__(allowed_protocols={"data", "file"})

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
        """Return what stands under ``url``; ``picture:`` and a name mean a stored picture."""
        if not url.startswith(PICTURE):
            return super().fetch(url, headers)
        with default_storage.open(url.removeprefix(PICTURE)) as file:
            return URLFetcherResponse(url, file.read(), {"Content-Type": "image/jpeg"})


def print_sheet(
    template: str,
    context: Mapping[str, Any],
    *,
    address: str,
    stylesheet: str = "css/paper/sheets.css",
    at: dt.datetime | None = None,
) -> bytes:
    """Return the sheet as PDF/UA; ``address`` is where its QR code leads back to the record.

    ``template`` extends ``print/base.html`` and fills ``number``, ``name`` and ``content``.
    ``context`` may name the ``paper``, and the number of the ``issue``.
    """
    return bound([lay_out(template, context, address=address, stylesheet=stylesheet, at=at)])


def lay_out(
    template: str,
    context: Mapping[str, Any],
    *,
    address: str,
    stylesheet: str = "css/paper/sheets.css",
    at: dt.datetime | None = None,
) -> Document:
    """Return the pages of one sheet, to be bound alone or with others."""
    told = {
        "site_name": settings.SITE_NAME,
        "printed_on": timezone.localtime(at).date(),
        "address": address,
        "qr": qr_picture(address),
        "paper": Paper.A4,
        **context,
    }
    return _rendered(render_to_string(template, told), stylesheet)


def pdf_of(html: str, stylesheet: str, *more: CSS) -> bytes:
    """Return a page of this site's own making as PDF/UA, with ``more`` styles after its sheet."""
    return bound([_rendered(html, stylesheet, *more)])


def bound(sheets: Sequence[Document]) -> bytes:
    """Return the sheets as one PDF; each counts its own pages."""
    pages = [page for sheet in sheets for page in sheet.pages]
    return sheets[0].copy(pages).write_pdf(**OPTIONS)  # type: ignore[no-any-return]


def _rendered(html: str, stylesheet: str, *more: CSS) -> Document:
    fetcher = OwnFilesFetcher()
    styles = CSS(filename=finders.find(stylesheet), url_fetcher=fetcher)
    page = HTML(string=html, url_fetcher=fetcher, base_url=None)
    return page.render(stylesheets=[styles, *more], **OPTIONS)


@lru_cache(maxsize=256)
def qr_picture(text: str) -> str:
    """Return a QR code as an image address; a quarter of it may be damaged and it still reads."""
    return segno.make(text, error="q", micro=False).svg_data_uri(border=4, scale=4)
