"""Showing a list a page at a time."""

from typing import Any, TypeVar

from django.core.paginator import Page, Paginator
from django.db import models
from django.http import HttpRequest

Row = TypeVar("Row", bound=models.Model)

PAGE_LENGTH = 50


def page_of(rows: models.QuerySet[Row], request: HttpRequest) -> Page[Any]:
    """Return the page that the address asks for, or the nearest there is."""
    return Paginator(rows, PAGE_LENGTH).get_page(request.GET.get("page"))
