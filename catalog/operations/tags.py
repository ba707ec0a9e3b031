"""Tying on tags: a code is read with care, and one code is on one thing only."""

from django.core.exceptions import ValidationError
from django.db import models

from catalog.queries.tags import bearer_of, taken_words
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
        raise ValidationError({"tag": taken_words(code, bearer)})
    return code
