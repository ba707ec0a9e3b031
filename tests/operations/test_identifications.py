"""Saying what a part is, agreeing, disputing, and what the part stands as then."""

import pytest
from django.core.exceptions import ValidationError

from catalog.operations.identifications import (
    give_opinion,
    identify_several,
    propose_identification,
    take_back,
)
from catalog.operations.record import restore_version
from tests.factories import (
    LONG_AGO,
    CharacteristicFactory,
    ComponentFactory,
    IdentificationFactory,
    MeasurementFactory,
    PartFactory,
    VehicleClassFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def part(db):
    return PartFactory()


@pytest.fixture
def box(db):
    return ComponentFactory(name="journal box")


def test_propose_writes_on_the_part_what_it_is(member, part, box):
    class_e = VehicleClassFactory()

    said = propose_identification(
        part, component=box, vehicle_class=class_e, basis="mark", reasons="T.I. 207", by=member
    )

    part.refresh_from_db()
    assert (part.component, part.vehicle_class) == (box, class_e)
    assert part.identification_status == "proposed"
    assert (said.made_by, said.basis, said.confidence) == (member, "mark", "probable")


def test_propose_something_else_takes_the_place_of_ones_former_word(member, part, box):
    former = propose_identification(part, component=ComponentFactory(), by=member)

    propose_identification(part, component=box, by=member)

    former.refresh_from_db()
    assert former.superseded_at is not None
    assert (part.component, part.identifications.standing().count()) == (box, 1)


def test_propose_the_same_again_amends_and_keeps_agreement(member, curator, part, box):
    said = propose_identification(part, component=box, by=member)
    give_opinion(said, agrees=True, by=curator)

    again = propose_identification(part, component=box, reasons="fits R1", by=member)

    assert (again.pk, again.reasons) == (said.pk, "fits R1")
    assert part.identification_status == "agreed"


def test_propose_refuses_withdrawn_things(member, part, box):
    gone = ComponentFactory(name="thing", withdrawn_at=LONG_AGO)

    with pytest.raises(ValidationError, match="“thing” is withdrawn"):
        propose_identification(part, component=gone, by=member)
    with pytest.raises(ValidationError, match="This part is withdrawn"):
        propose_identification(PartFactory(withdrawn_at=LONG_AGO), component=box, by=member)


def test_second_person_makes_it_agreed(member, curator, part, box):
    said = propose_identification(part, component=box, by=member)

    give_opinion(said, agrees=True, by=curator)

    part.refresh_from_db()
    assert part.identification_status == "agreed"
    assert part.history.first().history_change_reason == "journal box: agreed"


def test_own_identification_cannot_be_agreed_to(curator, part, box):
    said = propose_identification(part, component=box, by=curator)

    with pytest.raises(ValidationError, match="your own identification"):
        give_opinion(said, agrees=True, by=curator)


def test_dispute_needs_reasons(member, curator, part, box):
    said = propose_identification(part, component=box, by=member)

    with pytest.raises(ValidationError) as refusal:
        give_opinion(said, agrees=False, reasons=" ", by=curator)

    assert refusal.value.message_dict == {"reasons": ["Say why you think otherwise."]}
    assert part.identification_status == "proposed"


def test_opinion_given_again_replaces_the_former(member, curator, part, box):
    said = propose_identification(part, component=box, by=member)
    give_opinion(said, agrees=False, reasons="bore too large", by=curator)

    give_opinion(said, agrees=True, by=curator)

    part.refresh_from_db()
    assert (said.opinions.get().agrees, part.identification_status) == (True, "agreed")


def test_agreeing_gives_up_ones_own_different_identification(member, curator, part, box):
    theirs = propose_identification(part, component=box, by=member)
    own = propose_identification(part, component=ComponentFactory(), by=curator)
    assert part.identification_status == "disputed"

    give_opinion(theirs, agrees=True, by=curator)

    own.refresh_from_db()
    part.refresh_from_db()
    assert own.superseded_at is not None
    assert (part.component, part.identification_status) == (box, "agreed")


def test_opinion_on_what_nobody_holds_is_refused(curator):
    former = IdentificationFactory(superseded_at=LONG_AGO)

    with pytest.raises(ValidationError, match="no longer held"):
        give_opinion(former, agrees=True, by=curator)


def test_take_back_leaves_the_part_unidentified(member, curator, part, box):
    said = propose_identification(part, component=box, by=member)
    with pytest.raises(ValidationError, match="Only who said it"):
        take_back(said, by=curator)

    take_back(said, by=member)

    part.refresh_from_db()
    assert (part.component, part.identification_status) == (None, "unidentified")


def test_identify_several_says_the_same_of_each(member, box):
    parts = PartFactory.create_batch(3)

    identify_several(parts, component=box, confidence="guess", by=member)

    assert {(part.component, part.identification_status) for part in parts} == {(box, "proposed")}


def test_identifying_ties_measurements_to_the_characteristics_of_that_name(member, part, box):
    bore = CharacteristicFactory(component=box, name="journal bore")
    reading = MeasurementFactory(part=part, name="Journal-Bore")

    propose_identification(part, component=box, by=member)

    reading.refresh_from_db()
    assert (reading.characteristic, reading.name) == (bore, "journal bore")


def test_putting_a_part_back_leaves_what_it_stands_as(member, curator, part, box):
    first = part.history.earliest().pk
    propose_identification(part, component=box, by=member)

    restore_version(part, first, by=curator)

    part.refresh_from_db()
    assert (part.component, part.identification_status) == (box, "proposed")
