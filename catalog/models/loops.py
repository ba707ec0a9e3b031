"""Chains of like records that must not come back to where they began."""

from django.db import models


def comes_back(record: models.Model, link: str) -> bool:
    """Say whether following ``link`` from ``record`` leads to the record itself."""
    above = dict(type(record)._default_manager.values_list("pk", link))
    key = getattr(record, f"{link}_id")
    passed: set[int] = set()
    while key is not None and key != record.pk and key not in passed:
        passed.add(key)
        key = above.get(key)
    return key is not None and key == record.pk
