"""Steps on the bench: all of it or nothing, and each with a way back."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Part, SeenApart
from catalog.operations.bench import doubt_again, same_piece, see_apart, undo_step, work_on
from catalog.operations.identifications import propose_identification
from catalog.operations.moves import move_part
from catalog.operations.parts import change_part, record_part
from catalog.operations.record import latest_version, withdraw
from tests.factories import ComponentFactory, LocationFactory, PartFactory

pytestmark = pytest.mark.django_db
TAG = "K7Q-2M9V"


@pytest.fixture
def part(member):
    return record_part({"description": "bent strap"}, by=member)


def facts(part):
    part = Part.objects.get(pk=part.pk)
    names = ("tag", "description", "quantity", "usability", "location_id", "component_id")
    return {name: getattr(part, name) for name in (*names, "identification_status")}


def test_step_writes_down_all_that_was_filled_in(curator, part):
    shelf, component = LocationFactory(), ComponentFactory()

    work_on(
        part,
        tag="k7q 2m9v",
        quantity=3,
        usability="repair",
        component=component,
        location=shelf,
        by=curator,
    )

    assert facts(part) == {
        "tag": TAG,
        "description": "bent strap",
        "quantity": 3,
        "usability": "repair",
        "location_id": shelf.pk,
        "component_id": component.pk,
        "identification_status": "proposed",
    }


def test_step_is_taken_back_whole(curator, part):
    before = facts(part)
    step = work_on(
        part,
        tag=TAG,
        quantity=3,
        component=ComponentFactory(),
        location=LocationFactory(),
        description="",
        by=curator,
    )

    undo_step(part, step, by=curator)

    assert facts(part) == before
    assert part.moves.first().to_location is None


def test_step_that_changes_nothing_writes_nothing(curator, part):
    versions = part.history.count()

    step = work_on(part, tag=None, description="bent strap", quantity=1, location=None, by=curator)

    assert step.is_idle
    assert part.history.count() == versions


def test_refused_step_writes_nothing(curator, part):
    PartFactory(tag=TAG)

    with pytest.raises(ValidationError, match="is tied to"):
        work_on(part, tag=TAG, location=LocationFactory(), quantity=2, by=curator)

    assert facts(part)["quantity"] == 1
    assert facts(part)["location_id"] is None


def test_step_is_refused_when_somebody_changed_the_part_meanwhile(curator, member, part):
    seen = latest_version(part)
    change_part(part, {"description": "bent strap, two holes"}, by=member)

    with pytest.raises(ValidationError, match="walt changed this while you were typing"):
        work_on(part, description="strap", by=curator, seen=seen)


def test_step_is_not_taken_back_over_a_later_change(curator, member, part):
    step = work_on(part, tag=TAG, by=curator)
    change_part(part, {"description": "bent strap, two holes"}, by=member)

    with pytest.raises(ValidationError, match="was changed again since"):
        undo_step(part, step, by=curator)

    assert facts(part)["tag"] == TAG


def test_taking_back_gives_the_former_opinion_back(curator, part):
    hinge, strap = ComponentFactory(name="hinge"), ComponentFactory(name="strap")
    propose_identification(part, by=curator, component=hinge, confidence="guess")
    step = work_on(part, component=strap, by=curator)

    undo_step(part, step, by=curator)

    opinion = part.identifications.standing().get()
    assert (opinion.component, opinion.confidence) == (hinge, "guess")
    assert facts(part)["component_id"] == hinge.pk


def test_location_of_a_part_that_lies_there_already_is_no_move(curator, part):
    shelf = LocationFactory()
    move_part(part, location=shelf, by=curator)

    work_on(part, location=shelf, tag=TAG, by=curator)

    assert part.moves.count() == 1


def test_same_piece_is_withdrawn_and_points_to_the_other(curator, part):
    other = PartFactory(number="2026.4.3")
    change_part(part, {"tag": TAG}, by=curator)

    same_piece(part, other, by=curator)

    part.refresh_from_db()
    assert part.withdrawn_reason == "the same piece as 2026.4.3"
    assert part.tag == TAG


def test_part_is_not_its_own_twin_nor_that_of_a_withdrawn_one(curator, part):
    with pytest.raises(ValidationError, match="the part itself"):
        same_piece(part, part, by=curator)

    gone = withdraw(PartFactory(), by=curator, reason="by mistake")
    with pytest.raises(ValidationError, match="give the part that is kept"):
        same_piece(part, gone, by=curator)


def test_seeing_apart_twice_is_kept_once_and_can_be_taken_back(curator, part):
    assert see_apart(part, by=curator) == see_apart(part, by=curator)
    assert SeenApart.objects.get().seen_by == curator

    doubt_again(part, by=curator)

    assert not SeenApart.objects.exists()
