"""Writing wants, making them public, closing them."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Want
from catalog.operations.record import withdraw
from catalog.operations.wants import (
    change_want,
    close_want,
    hide_want,
    publish_want,
    record_want,
    reopen_want,
)
from catalog.queries.wants import asked_of
from tests.factories import (
    LONG_AGO,
    CharacteristicFactory,
    ComponentFactory,
    SpecificationFactory,
    WantFactory,
)
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db


def reasons(want):
    return [entry.history_change_reason for entry in want.history.order_by("pk")]


def test_want_of_several_positions_says_where_a_dimension_holds(member):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14")
    shop.limits("drawhead", "shank", lower_mm="63.5", upper_mm="64.5")
    places = [shop.position("drawhead", code) for code in ("A", "B")]
    length = CharacteristicFactory(component=shop.components["drawhead"], name="length")
    SpecificationFactory(
        vehicle_class=shop.vehicle_class,
        characteristic=length,
        position=places[1],
        lower_mm="300",
        upper_mm="302",
    )

    told = asked_of(wagon, *places)["dimensions"].splitlines()

    assert [line.partition(":")[0] for line in told] == ["shank", "length"]
    assert [line.endswith(", at B") for line in told] == [False, True]


def test_want_is_written_for_members_only(member):
    component = ComponentFactory(name="drawhead")

    want = record_want({"title": "Drawhead wanted", "component": component}, by=member)

    assert (want.slug, want.is_published, want.is_open) == ("drawhead-wanted", False, True)
    assert list(Want.objects.published()) == []
    assert want.history.get().history_user == member


def test_want_needs_a_title(member):
    with pytest.raises(ValidationError) as refusal:
        record_want({"title": "", "component": ComponentFactory()}, by=member)

    assert "title" in refusal.value.error_dict


def test_slugs_that_are_addresses_are_not_given(member):
    want = record_want({"title": "Feed", "component": ComponentFactory()}, by=member)

    assert want.slug == "feed-2"


def test_want_written_from_a_position_knows_dimensions_and_marks(member):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14")
    shop.limits("drawhead", "shank", lower_mm="63.5", upper_mm="64.5")
    shop.limits("drawhead", "length", lower_mm="300", upper_mm=None)
    shop.components["drawhead"].known_marks.create(text="T.I. 207")

    want = record_want(asked_of(wagon, shop.position("drawhead", "A")), by=member)

    assert want.title == "Drawhead for Wagon 14"
    assert want.dimensions.splitlines() == [
        "length: at least 300 mm (≈ 11.811 in)",
        "shank: 64.0 ± 0.5 mm (≈ 2.520 in)",
    ]
    assert want.marks == "T.I. 207"
    assert want.words.startswith("We are restoring Wagon 14, Class E, and lack this piece at A.")


def test_change_keeps_the_address(member):
    want = WantFactory(title="Drawhead", slug="drawhead")

    change_want(want, {"title": "Drawhead of cast steel"}, by=member)

    assert (want.title, want.slug) == ("Drawhead of cast steel", "drawhead")


def test_published_want_is_public_until_it_is_hidden(curator):
    want = publish_want(WantFactory(), by=curator, at=LONG_AGO)

    assert list(Want.objects.published()) == [want]
    assert want.published_at == LONG_AGO
    hide_want(want, by=curator)
    assert list(Want.objects.published()) == []
    assert publish_want(want, by=curator).published_at == LONG_AGO


def test_want_without_anything_that_would_help_is_not_published(curator):
    none = dict.fromkeys(("helps_piece", "helps_photo", "helps_drawing", "helps_look"), False)

    with pytest.raises(ValidationError, match="Say what would help"):
        publish_want(WantFactory(**none), by=curator)


def test_withdrawn_want_is_not_published(curator):
    want = withdraw(WantFactory(), by=curator, reason="entered twice")

    with pytest.raises(ValidationError, match="is withdrawn: entered twice"):
        publish_want(want, by=curator)


def test_closed_want_is_public_no_more_and_can_be_opened_again(curator):
    want = close_want(WantFactory(is_published=True), words="one came", by=curator, at=LONG_AGO)

    assert (want.closed_at, list(Want.objects.published())) == (LONG_AGO, [])
    with pytest.raises(ValidationError, match="is closed already"):
        close_want(want, by=curator)
    with pytest.raises(ValidationError, match="Open it again first"):
        publish_want(want, by=curator)
    reopen_want(want, by=curator)
    assert list(Want.objects.published()) == [want]
    assert reasons(want)[-2:] == ["closed: one came", "opened again"]
