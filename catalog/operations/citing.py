"""Putting a source behind a statement in the same act that makes the statement."""

from collections.abc import Mapping
from typing import Any, TypedDict

from django.db import models

from catalog.models import Citation, Member, Source
from catalog.operations.citations import cite
from catalog.queries.records import link_name


class Cited(TypedDict, total=False):
    """The source behind a statement, or the title of a new one, and the page or sheet in it."""

    source: Source | None
    title: str
    locator: str


def put_behind(statement: models.Model, cited: Cited, *, by: Member) -> Citation | None:
    """Cite the source behind ``statement``, where one was given."""
    source, title = cited.get("source"), cited.get("title", "")
    if source is None and not title:
        return None
    link: Any = {link_name(statement): statement}
    return cite(source, title=title, locator=cited.get("locator", ""), by=by, **link)


def parted(values: Mapping[str, Any]) -> tuple[Cited, dict[str, Any]]:
    """Part the source and its locator from what a statement itself says."""
    told = dict(values)
    return {"source": told.pop("source", None), "locator": told.pop("locator", "")}, told
