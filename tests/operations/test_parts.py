"""Recording parts: numbers within an accession, tags, quantities, the first place."""

import datetime as dt
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Move, Part, SearchEntry
from catalog.operations.parts import change_part, record_part
from catalog.operations.record import change, withdraw
from tests.factories import AccessionFactory, FittingFactory, LocationFactory, PartFactory

pytestmark = pytest.mark.django_db
TAG = "K7Q-2M9V"


@pytest.fixture
def accession(db):
    return AccessionFactory(year=2026, serial=4)


def test_record_part_needs_nothing(member):
    part = record_part({}, by=member)

    assert (part.number, part.quantity, part.recorded_by) == (None, 1, member)
    assert part.history.get().history_user == member


def test_record_part_counts_within_the_accession(member, accession):
    parts = [record_part({}, by=member, accession=accession) for _ in range(2)]
    other = record_part({}, by=member, accession=AccessionFactory(year=2025, serial=1))

    assert [part.number for part in (*parts, other)] == ["2026.4.1", "2026.4.2", "2025.1.1"]
    assert parts[0].number_sort == "2026.000004.000001.0"


def test_record_part_never_gives_the_number_of_a_withdrawn_part_again(member, curator, accession):
    withdraw(record_part({}, by=member, accession=accession), by=curator, reason="twice")

    assert record_part({}, by=member, accession=accession).number == "2026.4.2"


def test_record_part_never_gives_a_number_left_behind_again(member, curator, accession):
    part = record_part({}, by=member, accession=accession)
    elsewhere = {"accession": AccessionFactory(), "number": "2026.9.1", "item": 1}
    change(part, elsewhere, by=curator)

    assert record_part({}, by=member, accession=accession).number == "2026.4.2"


def test_record_part_refuses_a_withdrawn_accession(member, curator, accession):
    withdraw(accession, by=curator, reason="entered twice")

    with pytest.raises(ValidationError, match=r"Accession 2026\.4 is withdrawn"):
        record_part({}, by=member, accession=accession)


def test_record_part_at_a_location_is_its_first_move(member):
    shelf = LocationFactory()
    at = dt.datetime(2026, 5, 2, 10, 0, tzinfo=dt.UTC)

    part = record_part({"location": shelf}, by=member, at=at)

    move = Move.objects.get()
    assert (move.part, move.from_location, move.to_location) == (part, None, shelf)
    assert (move.moved_at, part.recorded_at) == (at, at)


@pytest.mark.parametrize("typed", ["k7q 2m9v", "https://shed.example/t/K7Q-2M9V/"])
def test_record_part_keeps_a_tag_as_printed(member, typed):
    assert record_part({"tag": typed}, by=member).tag == TAG


def test_record_part_says_which_character_of_a_tag_is_wrong(member):
    with pytest.raises(ValidationError, match="“O” is never printed on a tag"):
        record_part({"tag": "K7O-2M9V"}, by=member)


def test_record_part_says_which_part_has_the_tag(member):
    PartFactory(number="2026.4.18", description="journal box", tag=TAG)

    with pytest.raises(ValidationError) as refusal:
        record_part({"tag": TAG}, by=member)

    words = ["Tag K7Q-2M9V is tied to 2026.4.18, journal box. Take another tag."]
    assert refusal.value.message_dict == {"tag": words}
    assert Part.objects.count() == 1


def test_record_part_says_which_location_has_the_tag(member):
    LocationFactory(name="Rack 2", tag=TAG)

    with pytest.raises(ValidationError, match="is on the location Rack 2"):
        record_part({"tag": TAG}, by=member)


@pytest.mark.parametrize(
    ("quantity", "words"),
    [
        (0, "A part is at least one piece."),
        (-2, "A part is at least one piece."),
        (3.5, "Count whole pieces, not 3.5"),
        (Decimal("0.5"), "one piece of which half survives"),
    ],
)
def test_record_part_refuses_a_quantity_that_is_no_count(member, quantity, words):
    with pytest.raises(ValidationError, match=words):
        record_part({"quantity": quantity}, by=member)

    assert not Part.objects.exists()


def test_record_part_is_found_by_its_words(member, accession):
    record_part({"description": "bent strap"}, by=member, accession=accession)

    assert SearchEntry.objects.get().title == "2026.4.1 bent strap"


def test_change_part_refuses_fewer_than_are_in_use(member):
    lot = PartFactory(quantity=5)
    FittingFactory.create_batch(2, part=lot)

    with pytest.raises(ValidationError, match="2 of these are reserved, on trial or fitted"):
        change_part(lot, {"quantity": 1}, by=member)

    lot.refresh_from_db()
    assert lot.quantity == 5


def test_record_part_says_that_the_piece_with_the_tag_was_withdrawn(member):
    withdraw(
        PartFactory(number="2026.4.18", tag=TAG, description="casting"), by=member, reason="twice"
    )

    words = r"2026\.4\.18, casting, which was withdrawn\. Take another tag\."
    with pytest.raises(ValidationError, match=words):
        record_part({"tag": TAG}, by=member)


def test_change_part_keeps_its_own_tag_and_refuses_anothers(member):
    part = PartFactory(tag=TAG)
    PartFactory(number="2026.4.18", tag="9WV-6JX9")

    assert change_part(part, {"tag": "k7q2m9v"}, by=member).tag == TAG
    with pytest.raises(ValidationError, match=r"Tag 9WV-6JX9 is tied to 2026\.4\.18"):
        change_part(part, {"tag": "9wv 6jx9"}, by=member)


def test_change_part_numbers_it_within_another_accession(member, accession):
    part = record_part({}, by=member)

    change_part(part, {"accession": accession}, by=member)

    part.refresh_from_db()
    assert (part.number, part.accession) == ("2026.4.1", accession)


def test_change_part_leaves_the_number_of_the_same_accession(member, accession):
    part = record_part({}, by=member, accession=accession)

    assert change_part(part, {"accession": accession}, by=member).number == "2026.4.1"
    with pytest.raises(ValidationError, match="stays with the donation"):
        change_part(part, {"accession": None}, by=member)


def test_change_part_leaves_moving_to_moves(member):
    with pytest.raises(ValidationError, match="Move the part"):
        change_part(PartFactory(), {"location": LocationFactory()}, by=member)


def test_part_in_use_cannot_be_withdrawn(curator):
    part = FittingFactory().part

    with pytest.raises(ValidationError, match="Take it off there first"):
        withdraw(part, by=curator, reason="mistake")
