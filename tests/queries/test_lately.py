"""What happened lately, told by person and thing."""

import datetime as dt

import pytest

from catalog.models import Part
from catalog.operations.components import record_component
from catalog.operations.identifications import propose_identification
from catalog.operations.members import add_member
from catalog.operations.parties import record_party
from catalog.operations.parts import record_part
from catalog.queries.lately import happenings

pytestmark = pytest.mark.django_db


@pytest.fixture
def hinge(curator):
    return record_component({"name": "hinge"}, by=curator)


def told(happening):
    others = " and others" if happening.has_others else ""
    return f"{happening.by}: {happening.title}{others}: {happening.words}"


def test_what_one_person_did_to_one_part_in_a_sitting_is_told_once(member, hinge):
    part = record_part({"tag": "K7Q-2M9V"}, by=member)
    propose_identification(part, component=hinge, by=member)

    newest = happenings()[0]

    assert told(newest) == ("walt: tag K7Q-2M9V hinge: recorded, said what it is, hinge: proposed")


def test_the_same_done_to_many_is_told_once(member):
    for words in ("hinge", "latch", "door"):
        record_part({"description": words, "tag": None}, by=member)

    (happening,) = happenings()

    assert happening.has_others
    assert happening.words == "recorded"


def test_what_another_person_did_is_told_by_itself(member, curator, hinge):
    part = record_part({"tag": "K7Q-2M9V"}, by=member)
    propose_identification(part, component=hinge, by=curator)

    assert [happening.by for happening in happenings()] == ["cora", "walt", "cora"]


def test_a_later_sitting_is_told_by_itself(member):
    part = record_part({"tag": "K7Q-2M9V"}, by=member)
    entry = part.history.get()
    entry.pk, entry.history_change_reason = None, "changed"
    entry.history_date += dt.timedelta(hours=1)
    entry.save()

    assert [happening.words for happening in happenings()] == ["changed", "recorded"]


def test_most_are_kept_to(member):
    for number in range(4):
        record_party({"name": f"Party {number}"}, by=add_member_named(f"m{number}"))

    assert len(happenings(3)) == 3


def test_what_is_gone_is_not_told(member):
    record_part({"tag": "K7Q-2M9V"}, by=member)
    Part.objects.all().delete()

    assert happenings() == []


def add_member_named(username):
    return add_member({"username": username}, password="seven-lamps")
