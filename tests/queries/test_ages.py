"""When things were made: each piece of evidence, and what contradicts."""

import datetime as dt

import pytest

from catalog.models import Part, Vehicle
from catalog.operations.provenance import record_event
from catalog.queries.ages import age_of
from catalog.queries.marks_read import marks_read
from tests.factories import (
    PartFactory,
    PartMarkFactory,
    PartyFactory,
    PatentFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db
BUILT_THEN = {"date_earliest": dt.date(1898, 1, 1), "date_latest": dt.date(1904, 12, 31)}


@pytest.fixture
def class_k():
    return VehicleClassFactory(designation="Class K", **BUILT_THEN)


def test_patent_marking_bounds_a_casting_from_below():
    part = PartFactory()
    PartMarkFactory(part=part, text="PAT'D ?UG 1? 190?")

    assert age_of(part).made.earliest == dt.date(1900, 8, 10)
    assert age_of(part).made.latest is None


def test_pattern_number_alone_is_no_patent():
    part = PartFactory()
    PartMarkFactory(part=part, text="821393")

    assert (marks_read(part), age_of(part).evidence) == ((), ())


def test_recorded_patents_that_agree_stand_beside_the_marking():
    part = PartFactory()
    PartMarkFactory(part=part, text="PAT. JUNE 14 1881")
    agreeing = PatentFactory(country="US", number="242992", issued_on=dt.date(1881, 6, 14))
    PatentFactory(country="US", number="88929", issued_on=dt.date(1869, 4, 13))

    (read,) = marks_read(part)

    assert read.agreeing == (agreeing,)
    assert [one.label for one in age_of(part).evidence] == [
        "patent marking “PAT. JUNE 14 1881”, which agrees with US 242992"
    ]


def test_class_says_how_old_a_part_can_be_but_not_how_young(class_k):
    part = PartFactory(vehicle_class=class_k)

    made = age_of(Part.objects.get(pk=part.pk)).made

    assert (made.earliest, made.latest) == (dt.date(1898, 1, 1), None)


def test_vehicle_was_built_within_its_class_and_its_builders_years(class_k):
    class_k.builder = PartyFactory(name="Calder & Voss", years="1871–1902")
    class_k.save()
    engine = VehicleFactory(vehicle_class=class_k)

    assert age_of(engine).made.when == "between 1898 and 1902"


def test_sale_before_the_class_was_built_is_a_contradiction(class_k, curator):
    engine = VehicleFactory(vehicle_class=class_k)
    values = {"kind": "sold", "date_text": "1890", "to_party": "Mill"}
    record_event(vehicle=engine, values=values, by=curator)

    (contradiction,) = age_of(Vehicle.objects.get(pk=engine.pk)).made.contradictions

    told = contradiction.in_words()
    assert "vehicles of Class K were built then, not before 1 January 1898" in told
    assert "sold 1890, not after 31 December 1890" in told


def test_years_of_a_builder_that_are_no_date_say_nothing(class_k):
    class_k.builder = PartyFactory(years="a long time ago")
    class_k.save()

    labels = [one.label for one in age_of(VehicleFactory(vehicle_class=class_k)).evidence]

    assert labels == ["vehicles of Class K were built then"]


def test_built_about_a_year_is_not_told_as_in_that_year(curator):
    vehicle = VehicleFactory()
    values = {"kind": "built", "date_text": "about 1899"}
    record_event(vehicle=vehicle, values=values, by=curator)

    assert age_of(vehicle).made.when == "between 1894 and 1904"
