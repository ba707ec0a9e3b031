"""Parts on the screen: the list, the record, changing, splitting."""

import re

import pytest
from django.urls import reverse

from catalog.models import Hazard, Part, PartMark
from catalog.operations.parts import record_part
from tests.factories import (
    LONG_AGO,
    AccessionFactory,
    CharacteristicFactory,
    ComponentFactory,
    FittingFactory,
    IdentificationFactory,
    LocationFactory,
    MeasurementFactory,
    OpinionFactory,
    PartFactory,
    PartMarkFactory,
    PartyFactory,
    PhotoFactory,
)

pytestmark = pytest.mark.django_db
LIST = reverse("part-list")
TAG = "K7Q-2M9V"


def labels(client, query=""):
    html = client.get(LIST + query).content.decode()
    return re.findall(r'<a class="number" href="/parts/\d+/">(.+?)</a>', html)


def full_part(**values):
    part = PartFactory(quantity=3, location=LocationFactory(), accession=None, **values)
    PhotoFactory(part=part, is_main=True)
    PartMarkFactory(part=part)
    reading = MeasurementFactory(part=part, characteristic=CharacteristicFactory())
    MeasurementFactory(part=part, name=reading.name)
    OpinionFactory(identification=IdentificationFactory(part=part))
    FittingFactory(part=part)
    PartFactory(split_from=part)
    return part


def test_list_shows_parts_in_numerical_order_with_the_main_photo(signed_in):
    later = PartFactory(number="2026.4.10", number_sort="2026.000004.000010.0")
    PartFactory(number="2026.4.9", number_sort="2026.000004.000009.0")
    photo = PhotoFactory(part=later, is_main=True)

    html = signed_in.get(LIST).content.decode()

    assert re.findall(r'href="/parts/\d+/">(.+?)</a>', html) == ["2026.4.9", "2026.4.10"]
    assert re.findall(r'<img src="(.+?)"', html) == [photo.url_320]
    assert "2 parts" in html


def test_list_takes_the_same_queries_for_one_and_three(signed_in, count_queries):
    full_part()
    one = count_queries(signed_in, LIST)
    full_part()
    full_part()

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


def test_detail_takes_the_same_queries_for_one_and_three_of_everything(as_curator, count_queries):
    part = full_part()
    address = part.get_absolute_url()
    one = count_queries(as_curator, address)
    for _ in range(2):
        PhotoFactory(part=part)
        PartMarkFactory(part=part)
        MeasurementFactory(part=part, name=f"width {_}")
        OpinionFactory(identification=IdentificationFactory(part=part))
        FittingFactory(part=part)
        PartFactory(split_from=part)

    assert count_queries(as_curator, address) == one


def test_detail_shows_what_is_known(signed_in):
    part = full_part(description="cracked box")
    hazard = Hazard.objects.get(slug="asbestos")
    part.hazards.add(hazard)

    html = signed_in.get(part.get_absolute_url()).content.decode()

    assert hazard.caution.split(".")[0] in html
    assert "T.I. 2?7" in html
    assert "3 under this number: 2 free, 1 reserved" in html
    assert "2 readings agree" in html


def test_detail_flags_readings_that_disagree(signed_in):
    part = PartFactory()
    for value in ("63.5", "70"):
        MeasurementFactory(part=part, value_mm=value, text=f"{value} mm")

    html = signed_in.get(part.get_absolute_url()).content.decode()

    assert "differ by more than their uncertainty explains" in html


def test_change_saves_and_keeps_what_was_typed_when_refused(signed_in):
    PartFactory(number="2026.4.18", tag=TAG)
    part = PartFactory()
    address = reverse("part-change", args=[part.pk])
    typed = {"description": "oak block", "quantity": 2, "usability": "ready", "surviving_share": 1}

    refused = signed_in.post(address, {**typed, "tag": "k7q2m9v"}).content.decode()
    saved = signed_in.post(address, typed)

    part.refresh_from_db()
    assert "Tag K7Q-2M9V is already on part 2026.4.18" in refused
    assert 'value="oak block"' in refused
    assert (saved.status_code, part.description, part.tag) == (302, "oak block", None)


@pytest.mark.parametrize(
    ("quantity", "words"), [("0", "at least one piece"), ("3.5", "Count whole pieces")]
)
def test_quantity_that_is_no_count_is_refused_in_words(signed_in, quantity, words):
    part = PartFactory(quantity=4)
    typed = {"quantity": quantity, "usability": "ready", "surviving_share": 1}

    changed = signed_in.post(reverse("part-change", args=[part.pk]), typed)
    split = signed_in.post(
        reverse("part-split", args=[part.pk]),
        {"split-quantity": quantity, "split-usability": "ready"},
    )

    assert words in changed.content.decode()
    assert words in split.content.decode()
    assert Part.objects.get().quantity == 4


def test_split_leads_to_the_new_piece(signed_in, member):
    lot = record_part({"quantity": 9}, by=member, accession=AccessionFactory(year=2026, serial=4))

    answer = signed_in.post(
        reverse("part-split", args=[lot.pk]), {"split-quantity": 2, "split-usability": "repair"}
    )

    piece = lot.pieces.get()
    assert answer.headers["Location"] == piece.get_absolute_url()
    assert (piece.number, piece.usability) == ("2026.4.1a", "repair")


def test_only_curators_publish(signed_in, client, curator):
    address = reverse("part-change", args=[PartFactory().pk])
    assert 'name="is_published"' not in signed_in.get(address).content.decode()

    client.force_login(curator)
    assert 'name="is_published"' in client.get(address).content.decode()


def test_number_leads_to_its_part(signed_in):
    part = PartFactory(number="2026.4.17")

    assert signed_in.get("/n/2026.04.17/").headers["Location"] == part.get_absolute_url()
    assert signed_in.get("/n/2026.4.99/").headers["Location"] == "/find/?words=2026.4.99"


def test_visitor_sees_a_published_part_and_nothing_private(client):
    gift = AccessionFactory(party=PartyFactory(name="A. Donor"))
    box = ComponentFactory(name="journal box")
    part = PartFactory(
        is_published=True,
        description="secret words",
        component=box,
        identification_status="agreed",
        location=LocationFactory(name="Hidden shelf"),
        accession=gift,
    )
    PartMark.objects.create(part=part, text="T.I. 207")
    shown = PhotoFactory(part=part, is_published=True)
    hidden = PhotoFactory(part=part)

    html = client.get(part.get_absolute_url()).content.decode()

    assert "journal box" in html
    assert "T.I. 207" in html
    assert shown.url_320 in html
    for private in ("secret words", "Hidden shelf", "A. Donor", hidden.url_320):
        assert private not in html


def test_visitor_lists_published_parts_only(client):
    PartFactory(number="shown", is_published=True)
    PartFactory(number="hidden")

    html = client.get(LIST).content.decode()

    assert "shown" in html
    assert "hidden<" not in html


def test_unpublished_part_asks_strangers_to_sign_in_and_tells_visitors_nothing(client, visitor):
    address = PartFactory().get_absolute_url()
    assert client.get(address).headers["Location"] == f"{reverse('login')}?next={address}"

    client.force_login(visitor)
    assert client.get(address).status_code == 404
