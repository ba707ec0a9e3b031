"""The words of a date become the columns of a record."""

import datetime as dt

import pytest
from django.core.exceptions import ValidationError

from catalog.operations.dates import with_date_read


def test_words_are_read_into_bounds():
    assert with_date_read({"date_text": "about 1902"}) == {
        "date_text": "about 1902",
        "date_edtf": "1902~",
        "date_earliest": dt.date(1902, 1, 1),
        "date_latest": dt.date(1902, 12, 31),
    }


def test_no_words_empty_the_bounds():
    read = with_date_read({"date_text": " "})

    assert (read["date_edtf"], read["date_earliest"], read["date_latest"]) == ("", None, None)


def test_values_without_a_date_stay_as_they_are():
    assert with_date_read({"label": "Wagon 14"}) == {"label": "Wagon 14"}


def test_words_that_are_no_date_are_refused():
    with pytest.raises(ValidationError) as refusal:
        with_date_read({"date_text": "31 February 1902"})

    assert list(refusal.value.message_dict) == ["date_text"]
