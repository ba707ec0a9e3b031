"""Slugs for addresses: unique, readable, and given once, so that printed links keep working."""

from itertools import count

from django.db import models
from django.utils.text import slugify

# These stand in addresses where a slug could stand.
TAKEN = {"add", "feed", "one-more", "open", "over-time", "print"}
# Leaves room for a number behind it in the shortest slug column, which has 70 characters.
LONGEST = 65


def unique_slug(model: type[models.Model], text: str) -> str:
    """Return a slug for ``text`` that no row of ``model`` has, with a number when it must be."""
    stem = slugify(text)[:LONGEST].strip("-") or model._meta.model_name or "record"
    used = set(model._default_manager.filter(slug__startswith=stem).values_list("slug", flat=True))
    tried = (stem if number == 1 else f"{stem}-{number}" for number in count(1))
    return next(slug for slug in tried if slug not in used | TAKEN)
