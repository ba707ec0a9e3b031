"""Reading rows with the few columns that a page shows of what they point at.

A record joins a dozen tables of twenty columns each; making whole objects of all of them would
take longer than drawing the page.
"""

from typing import TypeVar

from django.db import models

Row = TypeVar("Row", bound=models.Model)


def with_joined(rows: models.QuerySet[Row], *joined: str) -> models.QuerySet[Row]:
    """Return ``rows`` whole, but of what is joined to them only these columns."""
    own = [field.name for field in rows.model._meta.concrete_fields]
    tables = {name.rpartition("__")[0] for name in joined}
    return rows.select_related(*tables).only(*own, *joined)


def names_of(member: str) -> tuple[str, ...]:
    """Return the columns from which the name of a ``member`` is made."""
    return tuple(f"{member}__{name}" for name in ("username", "first_name", "last_name"))
