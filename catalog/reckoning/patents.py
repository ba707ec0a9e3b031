"""Patents: numbers and dates, terms, codes, and worn markings, gathered in one place."""

from catalog.reckoning.patent_codes import (
    BritishNumber,
    british_number,
    british_numbering,
    country_in_words,
    is_user_assigned,
    kind_in_words,
)
from catalog.reckoning.patent_markings import (
    CandidateDay,
    MarkedDate,
    MarkedNumber,
    Marking,
    read_marking,
)
from catalog.reckoning.patent_numbers import (
    PatentError,
    check_number_and_date,
    is_from_memory,
    issue_year,
    number_range,
    read_number,
    year_range,
)
from catalog.reckoning.patent_terms import Expiry, expiry

__all__ = [
    "BritishNumber",
    "CandidateDay",
    "Expiry",
    "MarkedDate",
    "MarkedNumber",
    "Marking",
    "PatentError",
    "british_number",
    "british_numbering",
    "check_number_and_date",
    "country_in_words",
    "expiry",
    "is_from_memory",
    "is_user_assigned",
    "issue_year",
    "kind_in_words",
    "number_range",
    "read_marking",
    "read_number",
    "year_range",
]
