"""The page on which anything is found."""

import pytest
from django.urls import reverse

from catalog.operations.parts import record_part
from catalog.operations.searching import index_record
from tests.factories import ComponentFactory, PartFactory, VehicleFactory

pytestmark = pytest.mark.django_db
FIND = reverse("search")


def test_results_are_grouped_by_kind(signed_in, member):
    record_part({"description": "hinge pin"}, by=member)
    index_record(ComponentFactory(name="hinge"))

    groups = signed_in.get(FIND, {"words": "hinge"}).context["groups"]

    assert [(kind, len(found)) for kind, found in groups] == [("components", 1), ("parts", 1)]


def test_number_leads_straight_to_its_record(signed_in):
    part = PartFactory(number="2026.4.17")

    answer = signed_in.get(FIND, {"words": "2026.4.17"})

    assert answer.headers["Location"] == part.get_absolute_url()


def test_nothing_found_says_what_to_try(signed_in):
    assert "Try fewer words" in signed_in.get(FIND, {"words": "zzz"}).content.decode()


def test_stranger_finds_published_records_only(client):
    index_record(VehicleFactory(label="Wagon 14", is_published=True))
    index_record(VehicleFactory(label="Wagon 22"))
    hidden = PartFactory(number="2026.4.17")

    html = client.get(FIND, {"words": "wagon"}).content.decode()

    assert "Wagon 14" in html
    assert "Wagon 22" not in html
    assert client.get(FIND, {"words": hidden.number}).status_code == 200


def test_find_takes_the_same_queries_for_one_and_three(signed_in, member, count_queries):
    record_part({"description": "hinge"}, by=member)
    one = count_queries(signed_in, FIND + "?words=hinge")
    for _ in range(2):
        record_part({"description": "hinge"}, by=member)

    assert count_queries(signed_in, FIND + "?words=hinge") == one
