"""When things were made: each piece of evidence, and what contradicts."""

import datetime as dt

import pytest
from django.utils import timezone

from catalog.models import Part, Vehicle
from catalog.operations.provenance import record_event
from catalog.queries.ages import age_of, built_words
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


@pytest.fixture
def undated_engine():
    dated = {"designation": "Class K", "date_text": "from 1898 to 1904", "is_published": False}
    return VehicleFactory(date_text="", vehicle_class=VehicleClassFactory(**dated))


def test_vehicle_without_a_date_was_built_when_its_class_was(undated_engine):
    assert built_words(undated_engine) == "from 1898 to 1904 (as its class)"
    assert built_words(undated_engine, for_visitor=True) == ""


def test_story_says_when_a_vehicle_was_built_before_its_class_does(undated_engine, curator):
    values = {"kind": "built", "date_text": "1899", "certainty": "documented"}
    event = record_event(vehicle=undated_engine, values=values, by=curator)

    assert built_words(undated_engine, for_visitor=True) == "1899"
    event.withdrawn_at = timezone.now()
    event.save()
    assert built_words(undated_engine) == "from 1898 to 1904 (as its class)"


def test_of_two_accounts_the_preferred_one_says_when_and_how_surely(undated_engine, curator):
    idle = {"kind": "laid_up", "date_text": "1897", "certainty": "documented"}
    first = {"kind": "built", "date_text": "1899", "certainty": "documented"}
    reason = {"is_preferred": True, "preference_reason": "The plate says so."}
    second = {"kind": "built", "date_text": "about 1901", "certainty": "supposed", **reason}
    for values in (idle, first, second):
        record_event(vehicle=undated_engine, values=values, by=curator)

    assert built_words(undated_engine) == "about 1901 (supposed)"
    undated_engine.date_text = "1903"
    assert built_words(undated_engine) == "1903"
