"""What is typed is read back in words, to members only."""

import pytest
from django.urls import reverse

from catalog.models import Instrument

pytestmark = pytest.mark.django_db

NO_DATE = "date not known"


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("3 3/4 in", "3¾ in = 95.3 ± 1.8 mm"),
        ("3 48/64 in", "3¾ in = 95.25 ± 0.11 mm"),
        ("95 mm", "≈ 3.740 in = 95.00 ± 0.29 mm"),
    ],
)
def test_length_is_read_in_both_systems(signed_in, text, reading):
    answer = signed_in.get(reverse("echo-length"), {"text": text}).json()

    assert answer == {"reading": reading, "problem": ""}


def test_length_is_as_sure_as_the_instrument_that_read_it(signed_in):
    rule = Instrument.objects.get(slug="rule-32")
    query = {"text": "8 in", "instrument": rule.pk}

    answer = signed_in.get(reverse("echo-length"), query).json()

    assert answer["reading"] == "8 in = 203.20 ± 0.23 mm"


@pytest.mark.parametrize(
    ("beside", "reading"),
    [
        # JCGM 100, 5.1.2: 0.289 mm of the division and 1/√3 mm of the rust together.
        ({"allowance": "1 mm"}, "≈ 3.740 in = 95.00 ± 0.65 mm"),
        ({"allowance": "1 mm", "uncertainty": "0.1 mm"}, "≈ 3.740 in = 95.0 ± 0.1 mm"),
        ({"allowance": "1", "uncertainty": "abc"}, "≈ 3.740 in = 95.00 ± 0.29 mm"),
    ],
)
def test_reading_is_as_sure_as_the_fields_beside_it_say(signed_in, beside, reading):
    answer = signed_in.get(reverse("echo-length"), {"text": "95 mm", **beside}).json()

    assert answer == {"reading": reading, "problem": ""}


@pytest.mark.parametrize(
    ("query", "problem"),
    [
        ({"text": "0 mm"}, "“0 mm” is no size"),
        ({"text": "95 mm", "uncertainty": "0 mm"}, "No reading is perfect"),
    ],
)
def test_reading_that_will_be_refused_is_told_so_before(signed_in, query, problem):
    answer = signed_in.get(reverse("echo-length"), query).json()

    assert answer["reading"] == ""
    assert answer["problem"].startswith(problem)


def test_length_that_is_no_reading_is_said_without_a_doubt(signed_in):
    query = {"text": "3/16 in", "plain": ""}

    answer = signed_in.get(reverse("echo-length"), query).json()

    assert answer == {"reading": "3⁄16 in = 4.763 mm", "problem": ""}


@pytest.mark.parametrize("key", ["", "abc", "999999"])
def test_instrument_that_is_not_there_changes_nothing(signed_in, key):
    answer = signed_in.get(reverse("echo-length"), {"text": "95 mm", "instrument": key}).json()

    assert answer["reading"] == "≈ 3.740 in = 95.00 ± 0.29 mm"


def test_length_without_unit_takes_that_of_the_field(signed_in):
    bare = signed_in.get(reverse("echo-length"), {"text": "14"}).json()
    answer = signed_in.get(reverse("echo-length"), {"text": "14", "unit": "in"}).json()

    assert bare["reading"] == ""
    assert bare["problem"] != ""
    assert answer["reading"].startswith("14 in = 355.6 ± ")


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("about 1902", "about 1902: 1 January 1902 to 31 December 1902"),
        ("before June 1956", "before June 1956: … to 31 May 1956"),
        ("1931-06-14", "14 June 1931"),
        ("unknown", NO_DATE),
    ],
)
def test_date_is_read_back_with_the_days_it_can_mean(signed_in, text, reading):
    answer = signed_in.get(reverse("echo-date"), {"text": text}).json()

    assert answer == {"reading": reading, "problem": ""}


def test_date_that_is_no_date_is_told_so(signed_in):
    answer = signed_in.get(reverse("echo-date"), {"text": "31 February 1902"}).json()

    assert answer["reading"] == ""
    assert "February" in answer["problem"]


@pytest.mark.parametrize("name", ["echo-length", "echo-date"])
def test_echo_is_for_members_only(as_visitor, name):
    assert as_visitor.get(reverse(name), {"text": "95 mm"}).status_code == 403
