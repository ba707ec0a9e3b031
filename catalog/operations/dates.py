"""Reading the words of a vague date into the columns that a record keeps."""

from collections.abc import Mapping
from typing import Any

from django.core.exceptions import ValidationError

from catalog.reckoning.edtf_dates import DateError, parse_date


def with_date_read(values: Mapping[str, Any]) -> dict[str, Any]:
    """Return ``values`` with the bounds that the words of ``date_text`` mean.

    Nothing is added where no date is given or a form has read it already; refuse words that
    are no date.
    """
    if "date_text" not in values or "date_edtf" in values:
        return dict(values)
    words = str(values["date_text"]).strip()
    try:
        date = parse_date(words) if words else None
    except DateError as problem:
        raise ValidationError({"date_text": str(problem)}) from problem
    return {
        **values,
        "date_text": words,
        "date_edtf": date.edtf if date else "",
        "date_earliest": date.earliest if date else None,
        "date_latest": date.latest if date else None,
    }
