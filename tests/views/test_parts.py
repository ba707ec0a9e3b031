"""Parts on the screen: the record, changing, splitting, what visitors see."""

import pytest
from django.urls import reverse
from django.utils.html import strip_tags

from catalog.models import Hazard, Part, PartMark
from catalog.operations.parts import record_part
from tests.factories import (
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
    TrialFactory,
)

pytestmark = pytest.mark.django_db
LIST = reverse("part-list")
TAG = "K7Q-2M9V"


def full_part(**values):
    part = PartFactory(quantity=3, location=LocationFactory(), accession=None, **values)
    PhotoFactory(part=part, is_main=True)
    PartMarkFactory(part=part)
    reading = MeasurementFactory(part=part, characteristic=CharacteristicFactory())
    MeasurementFactory(part=part, name=reading.name)
    OpinionFactory(identification=IdentificationFactory(part=part))
    FittingFactory(part=part)
    TrialFactory(part=part)
    PartFactory(split_from=part)
    return part


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
        TrialFactory(part=part)
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
    typed["remarks"] = "ask Ada"

    refused = signed_in.post(address, {**typed, "tag": "k7q2m9v"}).content.decode()
    saved = signed_in.post(address, typed)

    part.refresh_from_db()
    assert "Tag K7Q-2M9V is tied to 2026.4.18" in refused
    assert 'value="oak block"' in refused
    assert (saved.status_code, part.description, part.tag) == (302, "oak block", None)
    assert part.remarks == "ask Ada"


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


@pytest.mark.parametrize(
    ("state", "told"), [("fitted", "on Wagon 14, A1 wheelset"), ("reserved", "not recorded")]
)
def test_detail_tells_where_a_fitted_part_is(signed_in, state, told):
    fitting = FittingFactory(
        state=state,
        part__location=None,
        vehicle__label="Wagon 14",
        position__code="A1",
        position__component__name="wheelset",
    )

    page = signed_in.get(fitting.part.get_absolute_url()).content.decode()

    place = page.split("Where it is", 1)[1].split("</section>")[0]
    assert told in " ".join(strip_tags(place).split())
