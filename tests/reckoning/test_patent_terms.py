"""Terms of US patents: leap days, missing days of filing, and refusals."""

from datetime import date

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from catalog.reckoning.patent_numbers import PatentError
from catalog.reckoning.patent_terms import LEAP_DAY_RULE, NO_FILING_DATE, expiry


@pytest.mark.parametrize(
    ("issued", "expires", "notes"),
    [
        (date(1848, 2, 29), date(1862, 2, 28), (LEAP_DAY_RULE,)),
        (date(1876, 2, 29), date(1893, 2, 28), (LEAP_DAY_RULE,)),
        (date(1876, 2, 28), date(1893, 2, 28), ()),
        (date(1876, 3, 1), date(1893, 3, 1), ()),
    ],
)
def test_leap_day_ends_on_the_last_of_february_and_says_so(issued, expires, notes):
    answer = expiry(issued)

    assert (answer.date, answer.notes) == (expires, notes)


def test_leap_day_of_filing_needs_no_rule_after_twenty_years():
    answer = expiry(date(1998, 3, 3), filed=date(1996, 2, 29))

    assert (answer.date, answer.notes) == (date(2016, 2, 29), ())


@given(st.dates(date(1861, 3, 2), date(1978, 6, 7)), st.integers(0, 4000))
def test_day_of_filing_does_not_matter_while_terms_ran_from_the_grant(issued, earlier):
    filed = date.fromordinal(issued.toordinal() - earlier)

    assert expiry(issued, filed=filed) == expiry(issued)
    assert expiry(issued).date.year == issued.year + 17


@given(st.dates(date(1978, 6, 8), date(2000, 1, 1)), st.integers(0, 4000))
def test_transitional_term_is_the_longer_of_the_two(issued, earlier):
    filed = date.fromordinal(issued.toordinal() - earlier)
    assume((2, 29) not in {(issued.month, issued.day), (filed.month, filed.day)})
    from_grant = issued.replace(year=issued.year + 17)
    from_filing = filed.replace(year=filed.year + 20)

    answer = expiry(issued, filed=filed)

    is_old_filing = filed < date(1995, 6, 8)
    assert answer.date == (max(from_grant, from_filing) if is_old_filing else from_filing)


def test_missing_day_of_filing_is_said_where_it_would_decide():
    assert expiry(date(1990, 1, 2)).notes == (NO_FILING_DATE,)
    assert NO_FILING_DATE in expiry(date(1990, 1, 2)).in_words()


def test_extension_is_told_in_words():
    assert expiry(date(1849, 5, 22)).in_words() == (
        "Expired 22 May 1863 (Patent Act of 4 July 1836, section 5: 14 years from grant). "
        "By an extension of seven years it could last until 22 May 1870."
    )


def test_earliest_acts_gave_fourteen_years():
    assert expiry(date(1836, 7, 3)).date == date(1850, 7, 3)
    assert expiry(date(1836, 7, 3)).extended is None


@pytest.mark.parametrize(
    ("issued", "filed", "message"),
    [
        (date(1789, 1, 1), None, "before 10 April 1790"),
        (date(1906, 5, 22), date(1906, 5, 23), "cannot have been filed later"),
    ],
)
def test_impossible_dates_are_refused_in_words(issued, filed, message):
    with pytest.raises(PatentError, match=message):
        expiry(issued, filed=filed)
