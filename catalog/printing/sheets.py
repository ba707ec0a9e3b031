"""Paper: a template becomes a tagged PDF with the title block, page numbers and its QR code."""

import datetime as dt
from collections.abc import Mapping
from typing import Any

import segno
from django.conf import settings
from django.contrib.staticfiles import finders
from django.template.loader import render_to_string
from django.utils import timezone
from weasyprint import CSS, HTML
from weasyprint.urls import URLFetcher

# Photos of thousands of pixels would make a mailed sheet of many megabytes.
OPTIONS = {"pdf_variant": "pdf/ua-1", "optimize_images": True, "dpi": 200, "jpeg_quality": 85}


def print_sheet(
    template: str,
    context: Mapping[str, Any],
    *,
    address: str,
    stylesheet: str = "css/paper.css",
    at: dt.datetime | None = None,
) -> bytes:
    """Return the sheet as PDF/UA; ``address`` is where its QR code leads back to the record.

    ``template`` extends ``print/base.html`` and fills ``number``, ``name`` and ``content``.
    """
    told = {
        "site_name": settings.SITE_NAME,
        "printed_on": timezone.localtime(at).date(),
        "address": address,
        "qr": qr_picture(address),
        **context,
    }
    # A sheet is made of this site's own files only; nothing is ever fetched from elsewhere.
    fetcher = URLFetcher(allowed_protocols={"data", "file"})
    page = HTML(string=render_to_string(template, told), url_fetcher=fetcher, base_url=None)
    sheet = CSS(filename=finders.find(stylesheet), url_fetcher=fetcher)
    return page.write_pdf(stylesheets=[sheet], **OPTIONS)  # type: ignore[no-any-return]


def qr_picture(text: str) -> str:
    """Return a QR code as an image address; a quarter of it may be damaged and it still reads."""
    return segno.make(text, error="q", micro=False).svg_data_uri(border=4, scale=4)
