"""Lists chosen and ordered by vague dates."""

import datetime as dt

import pytest
from django.urls import reverse

from tests.factories import AccessionFactory, SourceFactory, VehicleFactory

pytestmark = pytest.mark.django_db


def dated(edtf, first, last):
    days = [dt.date.fromisoformat(day) if day else None for day in (first, last)]
    return {"date_edtf": edtf, "date_earliest": days[0], "date_latest": days[1]}


@pytest.fixture
def vehicles():
    return [
        VehicleFactory(label="Kestrel", **dated("1899", "1899-01-01", "1899-12-31")),
        VehicleFactory(label="Wagon 14", **dated("189X", "1890-01-01", "1899-12-31")),
        VehicleFactory(label="Brake wagon", **dated("../1895", None, "1895-12-31")),
        VehicleFactory(label="Dunlin", **dated("1903", "1903-01-01", "1903-12-31")),
        VehicleFactory(label="Frame"),
    ]


def shown(client, **chosen):
    rows = client.get(reverse("vehicle-list"), chosen).context["rows"]
    return [row.vehicle.label for row in rows]


@pytest.mark.parametrize(
    ("words", "labels"),
    [
        ("1899", ["Kestrel", "Wagon 14"]),
        ("between 1890 and 1895", ["Brake wagon", "Wagon 14"]),
        ("after 1899", ["Dunlin"]),
        ("before 1890", ["Brake wagon"]),
    ],
)
def test_date_leaves_what_may_have_been_built_then(signed_in, vehicles, words, labels):
    assert sorted(shown(signed_in, date=words)) == labels


def test_list_is_ordered_by_date_with_unknown_dates_last(signed_in, vehicles):
    oldest = shown(signed_in, order="oldest")

    assert oldest[:3] == ["Wagon 14", "Kestrel", "Dunlin"]
    assert shown(signed_in, order="newest")[0] == "Dunlin"


def test_date_that_cannot_be_read_is_answered_beside_its_field(signed_in, vehicles):
    page = signed_in.get(reverse("vehicle-list"), {"date": "31 February 1899"})

    assert "February" in str(page.context["filter"].form.errors["date"])
    assert 'value="31 February 1899"' in page.content.decode()


@pytest.mark.parametrize(
    ("name", "made"), [("source", SourceFactory), ("accession", AccessionFactory)]
)
def test_sources_and_donations_are_chosen_by_date_too(signed_in, name, made):
    found = made(**dated("1911", "1911-01-01", "1911-12-31"))
    made(**dated("1984", "1984-01-01", "1984-12-31"))

    page = signed_in.get(reverse(f"{name}-list"), {"date": "summer 1911"})

    assert list(page.context["page"].object_list) == [found]
