"""Answering with a file: a PDF with the address its QR code leads back to, or a list as CSV."""

from django.conf import settings
from django.db import models
from django.http import HttpRequest, HttpResponse
from django.utils.http import content_disposition_header


def pdf_answer(data: bytes, name: str) -> HttpResponse:
    """Show the PDF in the browser; ``name`` is what it is called when it is kept."""
    answer = HttpResponse(data, content_type="application/pdf")
    answer.headers["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return answer


def csv_answer(data: bytes, name: str) -> HttpResponse:
    """Let the list be kept as the file ``name``, however that is spelled."""
    disposition = content_disposition_header(as_attachment=True, filename=name)
    headers = {"Content-Disposition": disposition or "attachment"}
    return HttpResponse(data, content_type="text/csv; charset=utf-8", headers=headers)


def record_address(request: HttpRequest, record: models.Model) -> str:
    """Return the full address of a record, under the group's own address where one is set."""
    return full_address(request, record.get_absolute_url())  # type: ignore[attr-defined]


def full_address(request: HttpRequest, path: str) -> str:
    """Return the address of ``path`` as others reach it."""
    if settings.SITE_ADDRESS:
        return f"{settings.SITE_ADDRESS.rstrip('/')}{path}"
    return request.build_absolute_uri(path)
