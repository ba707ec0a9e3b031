"""The list of parts: narrowed, counted, leafed through."""

import re

import pytest
from django.urls import reverse

from catalog.models import Hazard
from catalog.operations.parts import record_part
from tests.factories import (
    LONG_AGO,
    ComponentFactory,
    LocationFactory,
    PartFactory,
    PhotoFactory,
)

pytestmark = pytest.mark.django_db
LIST = reverse("part-list")
TAG = "K7Q-2M9V"


def labels(client, query=""):
    html = client.get(LIST + query).content.decode()
    return re.findall(r'<a class="number" href="/parts/\d+/">(.+?)</a>', html)


def test_list_shows_parts_in_numerical_order_with_the_main_photo(signed_in):
    later = PartFactory(number="2026.4.10", number_sort="2026.000004.000010.0")
    PartFactory(number="2026.4.9", number_sort="2026.000004.000009.0")
    photo = PhotoFactory(part=later, is_main=True)

    html = signed_in.get(LIST).content.decode()

    assert re.findall(r'href="/parts/\d+/">(.+?)</a>', html) == ["2026.4.9", "2026.4.10"]
    assert re.findall(r'<img src="(.+?)"', html) == [photo.url_320]
    assert "2 parts" in html


def test_list_takes_the_same_queries_for_one_and_three(signed_in, count_queries):
    PhotoFactory(is_main=True)
    one = count_queries(signed_in, LIST)
    PhotoFactory(is_main=True)
    PhotoFactory(is_main=True)

    assert count_queries(signed_in, LIST) == one


@pytest.mark.parametrize("query", ["?words=casting", "?usability=ready", "?page=7"])
def test_list_takes_the_same_queries_however_it_is_narrowed(signed_in, count_queries, query):
    record_part({"description": "casting", "usability": "ready"}, by=PartFactory().recorded_by)
    one = count_queries(signed_in, LIST + query)
    for _ in range(2):
        record_part({"description": "casting", "usability": "ready"}, by=PartFactory().recorded_by)

    assert count_queries(signed_in, LIST + query) == one


def test_list_is_narrowed_by_each_choice(signed_in):
    casting = ComponentFactory(name="casting")
    box = ComponentFactory(name="journal box", broader=casting)
    rack = LocationFactory(name="rack")
    shelf = LocationFactory(name="shelf", parent=rack)
    lead = Hazard.objects.get(slug="lead-paint")
    known = {"component": box, "identification_status": "agreed"}
    one = PartFactory(number="one", usability="ready", location=shelf, tag=TAG, **known)
    one.hazards.add(lead)
    PartFactory(number="two")

    for query in (
        f"?component={casting.pk}",
        f"?component={box.pk}",
        "?usability=ready",
        "?standing=agreed",
        f"?location={rack.pk}",
        f"?hazard={lead.pk}",
    ):
        assert (query, labels(signed_in, query)) == (query, ["one"])
    assert labels(signed_in, "?untagged=1") == ["two"]
    assert labels(signed_in, "?placeless=1") == ["two"]


def test_list_leaves_withdrawn_parts_out_unless_asked_for(signed_in):
    PartFactory(number="gone", description="bent rod", withdrawn_at=LONG_AGO)
    PartFactory(number="here")

    assert labels(signed_in) == ["here"]
    assert labels(signed_in, "?withdrawn=1") == ["gone"]
    assert labels(signed_in, "?withdrawn=1&words=rod") == ["gone"]
    assert labels(signed_in, "?withdrawn=1&words=box") == []


def test_list_by_words_narrowed_further(signed_in, member):
    for usability in ("ready", "repair"):
        record_part({"description": f"{usability} hinge", "usability": usability}, by=member)

    html = signed_in.get(LIST + "?words=hinge&usability=repair").content.decode()

    assert "1 part, as they were recorded" in html
    assert "repair hinge" in html


def test_list_ignores_what_it_cannot_read(signed_in):
    PartFactory(number="here")

    assert labels(signed_in, "?component=x&usability=shiny&page=minus") == ["here"]
    assert labels(signed_in, "?page=99") == ["here"]


def test_list_pages_lead_on_and_keep_the_choices(signed_in):
    PartFactory.create_batch(51, usability="ready")

    first = signed_in.get(LIST + "?usability=ready").content.decode()
    second = labels(signed_in, "?usability=ready&page=2")

    assert 'rel="next" href="?usability=ready&amp;page=2"' in first
    assert "page 1 of 2" in first
    assert len(second) == 1


def test_list_counts_beside_choices_that_are_open(signed_in):
    PartFactory.create_batch(2, usability="ready")
    PartFactory(usability="repair")

    html = signed_in.get(LIST).content.decode()
    narrowed = signed_in.get(LIST + "?usability=ready").content.decode()

    assert re.search(r'usability=ready" class="chip">ready <span class="chip-count">2<', html)
    assert re.search(r'class="chip" aria-current="true">ready<', narrowed)
    assert re.search(r'usability=repair" class="chip">needs repair<', narrowed)


def test_list_without_parts_says_what_to_do(signed_in):
    assert "Take in the first piece" in signed_in.get(LIST).content.decode()
    assert "No part is like that" in signed_in.get(LIST + "?words=nothing").content.decode()


def test_narrow_page_offers_every_choice(signed_in):
    box = ComponentFactory(name="journal box")

    html = signed_in.get(reverse("part-narrow") + f"?component={box.pk}").content.decode()

    assert re.search(rf'<option value="{box.pk}" [^>]*selected>journal box</option>', html)
    for name in ("words", "vehicle_class", "location", "accession", "hazard", "keep_with"):
        assert f'name="{name}"' in html
