"""Visitors, signed in or not, see what is published and nothing private of it."""

import pytest
from django.test import Client
from django.urls import reverse

from catalog.models import Drawing, Likeness, PatentFigure, PositionSpot
from tests.factories import (
    AccessionFactory,
    CitationFactory,
    ComponentFactory,
    DeviationFactory,
    FittingFactory,
    LocationFactory,
    PartFactory,
    PartyFactory,
    PatentFactory,
    PhotoFactory,
    PositionFactory,
    ProvenanceEventFactory,
    SourceFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db

PRIVATE = (
    "sentinel-mail",
    "sentinel-donor",
    "sentinel-shelf",
    "sentinel-note",
    "sentinel-words",
    "sentinel-letter",
    "sentinel-place",
    "sentinel-caption",
    "sentinel-part",
    "sentinel-reason",
)


@pytest.fixture
def donor():
    return PartyFactory(
        name="sentinel-donor",
        email="sentinel-mail@example.org",
        address="sentinel-place",
        notes="sentinel-note",
    )


@pytest.fixture
def kestrel(donor):
    engine = VehicleFactory(
        label="Kestrel",
        slug="kestrel",
        story="She hauled ore.",
        notes="sentinel-note",
        is_published=True,
        home_location=LocationFactory(name="sentinel-shelf"),
    )
    tell(engine, donor)
    furnish(engine, donor)
    return engine


def tell(engine, donor):
    town = PartyFactory(name="Tolvane Town", is_name_public=True)
    sold = ProvenanceEventFactory(
        vehicle=engine,
        kind="sold",
        from_party=town,
        to_party=donor,
        place="sentinel-place",
        words="sentinel-words",
        certainty="probable",
        is_preferred=True,
        preference_reason="sentinel-reason",
    )
    CitationFactory(event=sold, source=SourceFactory(title="sentinel-letter"))
    ProvenanceEventFactory(vehicle=engine, kind="acquired", from_party=donor, keeper=donor)


def furnish(engine, donor):
    kind = engine.vehicle_class
    box = PositionFactory(vehicle_class=kind, component=ComponentFactory(name="journal box"))
    PositionFactory(vehicle_class=kind, component=ComponentFactory(name="sand pipe"))
    picture = PhotoFactory(part=None, vehicle_class=kind, caption="sentinel-caption")
    drawing = Drawing.objects.create(vehicle_class=kind, title="sentinel-words", picture=picture)
    PositionSpot.objects.create(position=box, drawing=drawing, x=0.5, y=0.5)
    PhotoFactory(part=None, vehicle=engine, caption="sentinel-caption", is_main=True)
    PhotoFactory(part=None, vehicle=engine, caption="At the mill", is_published=True)
    PartFactory(keep_with=engine, description="sentinel-part", number="sentinel-part")
    published = PartFactory(
        number="2026.4.17",
        is_published=True,
        accession=AccessionFactory(party=donor, terms="sentinel-note"),
        location=LocationFactory(name="sentinel-shelf 2"),
        condition="sentinel-note",
    )
    FittingFactory(vehicle=engine, position=box, part=published, note="sentinel-note")
    DeviationFactory(vehicle=engine, reason="sentinel-reason")


@pytest.fixture(params=["nobody", "visitor"])
def outsider(request, visitor):
    client = Client()
    if request.param == "visitor":
        client.force_login(visitor)
    return client


@pytest.fixture
def door_patent(donor):
    patent = PatentFactory(pk=7, is_published=True, notes="sentinel-note", assignee=donor)
    patent.inventors.set([donor, PartyFactory(name="Ada Skarn", is_name_public=True)])
    shown = PhotoFactory(part=None, patent=patent, is_published=True)
    figure = PatentFigure.objects.create(patent=patent, label="Fig. 1", picture=shown)
    hidden = PhotoFactory(part=None, patent=patent)
    PatentFigure.objects.create(patent=patent, label="sentinel-caption", picture=hidden)
    casting = PartFactory(number="sentinel-part 2")
    Likeness.objects.create(
        figure=figure, part=casting, degree="differs", differences="sentinel-note"
    )
    return patent


ADDRESSES = ["/vehicles/", "/vehicles/kestrel/", "/patents/", "/patents/7/"]


@pytest.mark.parametrize("address", ADDRESSES)
def test_public_page_holds_nothing_private(outsider, kestrel, door_patent, address):
    answer = outsider.get(address)

    page = answer.content.decode()
    assert answer.status_code == 200
    assert [word for word in PRIVATE if word in page] == []


def test_public_vehicle_tells_its_story_needs_and_owners(outsider, kestrel):
    page = outsider.get(kestrel.get_absolute_url()).content.decode()

    for words in (
        "She hauled ore.",
        "At the mill",
        "1 of 2 essential positions",
        '<th scope="row">sand pipe</th>',
        '<td data-label="How many">1 of 1</td>',
        "Tolvane Town",
        "a private owner",
        "a source that is not published",
        "2026.4.17",
    ):
        assert words in page


def test_public_list_names_published_vehicles_only(outsider, kestrel):
    VehicleFactory(label="Wagon 14")

    rows = outsider.get(reverse("vehicle-list")).context["rows"]

    assert [row.label for row in rows] == ["Kestrel"]


@pytest.mark.parametrize("told", [{"is_published": False}, {"withdrawn_at": "2026-01-01T00:00Z"}])
def test_what_is_not_published_is_not_there(outsider, told):
    VehicleFactory(slug="wagon-14", **({"is_published": True} | told))

    assert outsider.get("/vehicles/wagon-14/").status_code == 404


def test_public_patent_names_inventors_who_may_be_named(outsider, door_patent):
    page = outsider.get(door_patent.get_absolute_url()).content.decode()

    assert "Invented by Ada Skarn" in page
    assert "Fig. 1" in page


def test_patent_that_is_not_published_is_not_there(outsider):
    patent = PatentFactory()

    assert outsider.get(patent.get_absolute_url()).status_code == 404
    assert list(outsider.get(reverse("patent-list")).context["page"]) == []


def test_members_pages_of_a_published_vehicle_stay_closed(outsider, kestrel):
    names = ("vehicle-change", "vehicle-differences", "vehicle-dismantling")
    addresses = [reverse(name, args=[kestrel.slug]) for name in names]
    addresses.append(reverse("provenance", args=["vehicle", kestrel.pk]))

    answers = [outsider.get(address) for address in addresses]

    assert {answer.status_code for answer in answers} <= {302, 403}
    assert not any(word in answer.content.decode() for answer in answers for word in PRIVATE)


def test_public_list_takes_the_same_queries_for_one_and_three(client, count_queries):
    VehicleFactory(is_published=True)
    one = count_queries(client, reverse("vehicle-list"))

    VehicleFactory.create_batch(2, is_published=True)

    assert count_queries(client, reverse("vehicle-list")) == one
