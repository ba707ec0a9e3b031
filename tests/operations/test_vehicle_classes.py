"""Recording vehicle classes, and what is refused."""

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from catalog.operations.record import withdraw
from catalog.operations.vehicle_classes import change_vehicle_class, record_vehicle_class

pytestmark = pytest.mark.django_db


@pytest.fixture
def class_e(curator):
    return record_vehicle_class({"designation": "Class E"}, by=curator)


def test_record_vehicle_class_reads_gauge_and_dates_from_words(curator):
    values = {"designation": "Class K", "gauge_text": "2 ft 6 in", "date_text": "from 1898 to 1904"}

    made = record_vehicle_class(values, by=curator)

    assert (made.gauge_mm, made.gauge_text) == (Decimal(762), "2 ft 6 in")
    assert (made.date_earliest.year, made.date_latest.year) == (1898, 1904)
    assert made.slug == "class-k"


@pytest.mark.parametrize(("words", "mm"), [("meter gauge", 1000), ("600 mm", 600), ("", None)])
def test_record_vehicle_class_knows_gauges_by_name(curator, words, mm):
    made = record_vehicle_class({"designation": "Class M", "gauge_text": words}, by=curator)

    assert made.gauge_mm == mm


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"gauge_text": "3 5/4 in"}, "gauge_text"),
        ({"date_text": "32 May 1904"}, "date_text"),
        ({"designation": "CLASS E"}, "designation"),
    ],
)
def test_record_vehicle_class_refuses_in_words_beside_the_field(curator, class_e, values, field):
    with pytest.raises(ValidationError) as problem:
        record_vehicle_class({"designation": "Class K", **values}, by=curator)

    assert list(problem.value.error_dict) == [field]


def test_record_vehicle_class_tells_of_a_withdrawn_one(curator, class_e):
    withdraw(class_e, by=curator, reason="entered twice")

    with pytest.raises(ValidationError, match="Class E was withdrawn"):
        record_vehicle_class({"designation": "Class E"}, by=curator)


def test_change_vehicle_class_keeps_its_address(curator, class_e):
    change_vehicle_class(class_e, {"designation": "Class E, tipping"}, by=curator)

    assert class_e.slug == "class-e"


def test_classes_based_on_one_another_make_no_loop(curator, class_e):
    brake = record_vehicle_class({"designation": "Class B", "based_on": class_e}, by=curator)

    with pytest.raises(ValidationError) as problem:
        change_vehicle_class(class_e, {"based_on": brake}, by=curator)

    assert problem.value.messages == ["Class B is itself based on Class E: not both ways round."]
