"""Fields that read what people write tell the page how to read it back."""

import pytest
from django.core.exceptions import ValidationError

from catalog.forms.fields import LengthField, VagueDateField


def test_length_field_names_its_default_unit_to_the_page():
    with_unit = LengthField(default_unit="in").widget.attrs
    without = LengthField().widget.attrs

    assert (with_unit["data-length-echo"], with_unit["data-unit"]) == ("", "in")
    assert "data-unit" not in without


def test_length_field_refuses_two_lengths_in_words():
    with pytest.raises(ValidationError, match="more than one length"):
        LengthField().clean("5 in x 9 in")


def test_date_field_keeps_the_words_and_what_they_mean():
    words = VagueDateField().clean("about 1902")

    assert (str(words), words.date.edtf) == ("about 1902", "1902~")


def test_date_field_left_empty_means_no_date():
    words = VagueDateField(required=False).clean("")

    assert (str(words), words.date) == ("", None)
