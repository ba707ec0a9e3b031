"""Test how a record is written: what is refused, in whose words, and at what cost."""

import pytest
from django.core.exceptions import ValidationError
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalog.models import Component, Hazard, Location, Part, SearchEntry
from catalog.operations.record import change, keep, record_new
from tests.factories import ComponentFactory, LocationFactory, PartFactory
from tests.factories.moments import LONG_AGO


def refused(act):
    with pytest.raises(ValidationError) as refusal:
        act()
    return refusal.value.message_dict


def test_keep_refuses_what_a_column_holds_once_at_its_field(member):
    ComponentFactory(name="hinge")

    told = refused(lambda: record_new(Component, {"name": "hinge", "slug": "hinge-2"}, by=member))

    assert told == {"name": ["Component with this Name already exists."]}


def test_keep_refuses_what_a_constraint_forbids_in_its_words(member):
    LocationFactory(name="Rack 2")
    twin = {"name": "rack 2", "path": "rack 2"}

    told = refused(lambda: record_new(Location, twin, by=member))

    assert told == {"__all__": ["There is already a location of this name there."]}


def test_keep_tells_all_that_is_wrong_at_once(member):
    part = PartFactory()
    values = {"description": "a" * 241, "quantity": 0}

    told = refused(lambda: change(part, values, by=member))

    assert told == {
        "description": ["Ensure this value has at most 240 characters (it has 241)."],
        "__all__": ["A part is at least one piece."],
    }


def test_keep_refuses_what_is_not_there(member):
    part = PartFactory()
    part.location_id = 4711

    told = refused(lambda: keep(part, by=member, why="moved", fields=["location"]))

    assert told == {"location": ["location instance with id 4711 is not a valid choice."]}


def test_keep_leaves_a_refused_record_as_it_was(member):
    part = PartFactory(quantity=3)

    refused(lambda: change(part, {"quantity": 0}, by=member))

    assert Part.objects.get(pk=part.pk).quantity == 3
    assert part.history.count() == 1


def test_keep_asks_no_constraint_when_nothing_is_refused(member):
    part = Part(description="casting", recorded_at=LONG_AGO, recorded_by=member)

    with CaptureQueriesContext(connection) as queries:
        keep(part, by=member, why="recorded")

    assert [query["sql"] for query in queries if "_check" in query["sql"]] == []
    assert len(queries) == 9


def test_keep_renews_the_one_search_entry(member):
    part = PartFactory(description="casting", number="2026.4.1")
    keep(part, by=member, why="recorded")

    change(part, {"description": "hinge"}, by=member)

    entries = SearchEntry.objects.filter(kind="part", object_id=part.pk)
    assert [entry.title for entry in entries] == ["2026.4.1 hinge"]


def test_the_hazards_that_a_part_is_recorded_with_are_in_its_history(member):
    asbestos = Hazard.objects.get(slug="asbestos")
    values = {"recorded_at": LONG_AGO, "recorded_by": member, "hazards": [asbestos]}

    part = record_new(Part, {"description": "brake block", **values}, by=member)

    newest = part.history.order_by("-pk").first()
    assert [link.hazard for link in newest.hazards.all()] == [asbestos]
