"""Tying on tags: a code is read with care, and one code is on one thing only."""

from django.core.exceptions import ValidationError
from django.db import models

from catalog.queries.tags import bearer_of
from catalog.reckoning.codes import normalize_tag_code, tag_problem


def tag_for(record: models.Model, text: str | None) -> str | None:
    """Return the tag code in ``text`` as it is printed, or None where nothing was written.

    Refuse a code with a wrong character, and one that something other than ``record`` bears.
    """
    if not text or not text.strip():
        return None
    if problem := tag_problem(text):
        raise ValidationError({"tag": problem})
    code = normalize_tag_code(text)
    bearer = bearer_of(code)
    if bearer is not None and bearer != record:
        raise ValidationError({"tag": f"Tag {code} is already on {_in_words(bearer)}."})
    return code


def _in_words(bearer: models.Model) -> str:
    withdrawn = " (withdrawn)" if getattr(bearer, "is_withdrawn", False) else ""
    what = getattr(bearer, "component", None) or getattr(bearer, "description", "")
    described = f", {what}" if what else ""
    return f"{bearer._meta.verbose_name} {bearer}{described}{withdrawn}"
