"""Splitting pieces off counted lots."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Hazard
from catalog.operations.identifications import give_opinion, propose_identification
from catalog.operations.lots import split_part
from catalog.operations.parts import record_part
from catalog.operations.record import withdraw
from tests.factories import (
    AccessionFactory,
    ComponentFactory,
    FittingFactory,
    LocationFactory,
    PartFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def hinges(member):
    values = {"quantity": 9, "description": "strap hinges", "location": LocationFactory()}
    return record_part(values, by=member, accession=AccessionFactory(year=2026, serial=4))


def test_split_gives_the_piece_the_next_letter_and_takes_it_off_the_lot(member, hinges):
    piece = split_part(hinges, 2, by=member)

    hinges.refresh_from_db()
    assert (piece.number, piece.quantity, hinges.quantity) == ("2026.4.1a", 2, 7)
    assert (piece.split_from, piece.location) == (hinges, hinges.location)
    assert (piece.accession, piece.description) == (hinges.accession, "strap hinges")


def test_split_letters_go_on_after_a_withdrawn_piece_and_a_split_piece(member, curator, hinges):
    first = split_part(hinges, 3, by=member)
    withdraw(split_part(hinges, 1, by=member), by=curator, reason="miscounted")

    assert split_part(first, 1, by=member).number == "2026.4.1c"


def test_split_says_what_is_different_about_the_piece(member, hinges):
    piece = split_part(hinges, 1, by=member, usability="repair", tag="k7q2m9v", defect="bent")

    assert (piece.usability, piece.tag, piece.defect) == ("repair", "K7Q-2M9V", "bent")


def test_split_keeps_hazards_and_everybodys_opinion_of_what_it_is(member, curator, hinges):
    lead = Hazard.objects.get(slug="lead-paint")
    hinges.hazards.add(lead)
    hinge = ComponentFactory(name="strap hinge")
    said = propose_identification(hinges, component=hinge, basis="drawing", by=member)
    give_opinion(said, agrees=True, by=curator)

    piece = split_part(hinges, 1, by=curator)

    copy = piece.identifications.get()
    assert (piece.component, piece.identification_status) == (hinge, "agreed")
    assert (copy.made_by, copy.basis, copy.made_at) == (member, "drawing", said.made_at)
    assert [opinion.made_by for opinion in copy.opinions.all()] == [curator]
    assert list(piece.hazards.all()) == [lead]


def test_split_is_told_in_both_histories(member, hinges):
    piece = split_part(hinges, 2, by=member)

    assert hinges.history.first().history_change_reason == "2 split off as 2026.4.1a"
    assert piece.history.first().history_change_reason == "split from 2026.4.1"


@pytest.mark.parametrize(
    ("quantity", "words"),
    [
        (0, "at least one piece"),
        (3.5, "Count whole pieces, not 3.5"),
        (9, "There are 9 pieces under 2026.4.1: at least one stays"),
        (20, "There are 9 pieces under 2026.4.1: at least one stays"),
    ],
)
def test_split_refuses_what_cannot_be_split(member, hinges, quantity, words):
    with pytest.raises(ValidationError, match=words):
        split_part(hinges, quantity, by=member)

    hinges.refresh_from_db()
    assert (hinges.quantity, hinges.pieces.count()) == (9, 0)


def test_split_refuses_pieces_that_are_in_use(member, hinges):
    FittingFactory.create_batch(7, part=hinges, state="reserved")

    with pytest.raises(ValidationError, match="Only 2 of these are free"):
        split_part(hinges, 3, by=member)


def test_split_refuses_a_single_piece(member):
    with pytest.raises(ValidationError, match="single piece"):
        split_part(PartFactory(), 1, by=member)


def test_split_of_a_lot_without_number_leaves_the_piece_without_one(member):
    lot = record_part({"quantity": 2}, by=member)

    assert split_part(lot, 1, by=member).number is None
