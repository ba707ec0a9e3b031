"""Provenance on the screen."""

import re

import pytest
from django.urls import reverse

from catalog.models import ProvenanceEvent
from catalog.operations.dates import with_date_read
from tests.factories import (
    CitationFactory,
    PartFactory,
    PartyFactory,
    ProvenanceEventFactory,
    SourceFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def vehicle():
    return VehicleFactory(label="Kestrel")


def test_curator_adds_an_event_with_a_vague_date(as_curator, vehicle):
    typed = {
        "kind": "sold",
        "date_text": "about 1938",
        "from_party": "Orrin",
        "certainty": "probable",
    }

    answer = as_curator.post(reverse("event-add", args=["vehicle", vehicle.pk]), typed)

    event = ProvenanceEvent.objects.get()
    assert answer.headers["Location"] == event.get_absolute_url()
    assert (event.vehicle, event.date_edtf, event.from_party.name) == (vehicle, "1938~", "Orrin")


def test_wrong_date_keeps_what_was_typed(as_curator, vehicle):
    typed = {
        "kind": "sold",
        "date_text": "1956/1950",
        "from_party": "Orrin",
        "certainty": "probable",
    }

    page = as_curator.post(reverse("event-add", args=["vehicle", vehicle.pk]), typed)

    assert not ProvenanceEvent.objects.exists()
    assert 'value="1956/1950"' in page.content.decode()
    assert 'value="Orrin"' in page.content.decode()


def test_event_of_a_part_is_changed(as_curator):
    event = ProvenanceEventFactory(
        vehicle=None, part=PartFactory(), kind="given", from_party=PartyFactory(name="A. Skarn")
    )
    address = reverse("event-change", args=[event.pk])

    assert 'value="A. Skarn"' in as_curator.get(address).content.decode()
    typed = {"kind": "given", "from_party": "A. Skarn", "certainty": "documented", "place": "Skarn"}
    as_curator.post(address, typed)

    event.refresh_from_db()
    assert event.place == "Skarn"


def test_volunteer_reads_the_story_but_does_not_edit_it(signed_in, vehicle):
    ProvenanceEventFactory(vehicle=vehicle, words="brought over the pass")

    page = signed_in.get(reverse("provenance", args=["vehicle", vehicle.pk]))

    assert "brought over the pass" in page.content.decode()
    assert signed_in.get(reverse("event-add", args=["vehicle", vehicle.pk])).status_code == 403


def test_visitor_never_sees_the_members_story(as_visitor, vehicle):
    assert as_visitor.get(reverse("provenance", args=["vehicle", vehicle.pk])).status_code == 403


def test_provenance_of_what_has_none_answers_that_nothing_is_there(signed_in, vehicle):
    empty = signed_in.get(reverse("provenance", args=["vehicle", vehicle.pk])).content.decode()

    assert "Nothing is recorded of where it came from." in empty
    assert signed_in.get("/provenance/party/1/").status_code == 404


def test_story_takes_the_same_queries_for_one_and_three(signed_in, count_queries, vehicle):
    address = reverse("provenance", args=["vehicle", vehicle.pk])

    def tell():
        event = ProvenanceEventFactory(vehicle=vehicle, kind="sold", to_party=PartyFactory())
        CitationFactory(event=event)

    tell()
    one = count_queries(signed_in, address)
    tell()
    tell()

    assert count_queries(signed_in, address) == one


@pytest.mark.parametrize(
    ("given", "certainty"), [({}, "supposed"), ({"new_source": "Sale letter"}, "documented")]
)
def test_event_is_documented_only_if_a_source_says_so(as_curator, vehicle, given, certainty):
    typed = {"kind": "sold", "to_party": "Orrin", "locator": "page 2" if given else "", **given}

    as_curator.post(reverse("event-add", args=["vehicle", vehicle.pk]), typed)

    event = ProvenanceEvent.objects.get()
    assert event.certainty == certainty
    cited = [(one.source.title, one.locator) for one in event.citations.all()]
    assert cited == ([("Sale letter", "page 2")] if given else [])


def test_source_on_record_and_a_new_one_are_not_taken_both(as_curator, vehicle):
    source = SourceFactory(title="Inventory")
    typed = {"kind": "sold", "to_party": "Orrin", "source": source.pk, "new_source": "Letter"}

    page = as_curator.post(reverse("event-add", args=["vehicle", vehicle.pk]), typed)

    assert "one of the two" in page.content.decode()
    assert 'value="Letter"' in page.content.decode()
    assert not ProvenanceEvent.objects.exists()


def test_one_event_after_another_is_added_without_going_back(as_curator, vehicle):
    address = reverse("event-add", args=["vehicle", vehicle.pk])

    answer = as_curator.post(address, {"kind": "built", "date_text": "1899", "next": "1"})

    assert answer.headers["Location"] == address
    assert ProvenanceEvent.objects.get().date_edtf == "1899"


def test_statements_that_clash_lead_to_their_events_on_the_page(signed_in, vehicle):
    own = {"vehicle": vehicle, "to_party": PartyFactory()}
    built, seen = (
        ProvenanceEventFactory(kind=kind, **own, **with_date_read({"date_text": when}))
        for kind, when in (("built", "1902"), ("listed", "1901"))
    )

    page = signed_in.get(built.get_absolute_url()).content.decode()

    links = set(re.findall(r'href="#(event-\d+)"', page))
    assert links == {f"event-{built.pk}", f"event-{seen.pk}"}
    assert links <= set(re.findall(r'<li [^>]*id="([^"]+)"', page))


def folds_of(page):
    return [fold.is_open for fold in page.context["form"].folds]


def test_seldom_needed_fields_are_folded_away_until_something_stands_in_them(as_curator, vehicle):
    event = ProvenanceEventFactory(vehicle=vehicle, keeper=PartyFactory(name="Parks office"))
    add = reverse("event-add", args=["vehicle", vehicle.pk])

    assert folds_of(as_curator.get(add)) == [False, False]
    assert folds_of(as_curator.get(reverse("event-change", args=[event.pk]))) == [False, True]
    page = as_curator.post(add, {"kind": "", "new_source": "Letter of 1929"})
    assert folds_of(page) == [True, False]
    assert 'value="Letter of 1929"' in page.content.decode()


def test_a_fold_with_a_mistake_in_it_stands_open(as_curator, vehicle):
    add = reverse("event-add", args=["vehicle", vehicle.pk])

    page = as_curator.post(add, {"kind": "built", "sequence": "first"})

    assert folds_of(page) == [False, True]
    assert page.context["form"].errors.keys() == {"sequence"}
    assert page.content.decode().count("<details open>") == 1


def test_every_field_of_the_event_form_is_shown_once(as_curator, vehicle):
    form = as_curator.get(reverse("event-add", args=["vehicle", vehicle.pk])).context["form"]

    shown = [*form.plain_fields, *(field for fold in form.folds for field in fold.fields)]
    assert sorted(field.name for field in shown) == sorted(form.fields)
