"""Adding members, changing what they may do, and their passwords."""

from random import Random

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Member, Role
from catalog.operations.members import (
    add_member,
    change_member,
    change_own_password,
    first_password,
    set_password,
)
from tests.factories import MemberFactory

pytestmark = pytest.mark.django_db


def test_first_password_is_twelve_plain_characters_in_groups():
    password = first_password(Random(1))

    assert [len(group) for group in password.split("-")] == [4, 4, 4]
    assert password == first_password(Random(1))
    assert password != first_password(Random(2))


def test_first_member_of_all_is_added_by_themselves():
    member = add_member({"username": "stella", "role": "steward"}, password="seven-lamps")

    assert member.check_password("seven-lamps")
    assert member.history.get().history_user == member


def test_member_is_refused_a_name_that_is_taken_in_any_case(steward):
    with pytest.raises(ValidationError) as refusal:
        add_member({"username": "Stella"}, password="seven-lamps", by=steward)

    assert refusal.value.message_dict == {"username": ["“Stella” is taken; choose another name."]}


def test_member_is_refused_an_easy_password(steward):
    with pytest.raises(ValidationError) as refusal:
        add_member({"username": "otto"}, password="password", by=steward)

    assert refusal.value.message_dict == {"password": ["This password is too common."]}
    assert not Member.objects.filter(username="otto").exists()


@pytest.mark.parametrize(
    ("values", "field"), [({"role": "curator"}, "role"), ({"is_active": False}, "is_active")]
)
def test_only_steward_stays_one(steward, values, field):
    with pytest.raises(ValidationError) as refusal:
        change_member(steward, values, by=steward)

    assert refusal.value.message_dict == {
        field: ["stella is the only steward. Make somebody else a steward first."]
    }


def test_steward_steps_down_when_there_is_another(steward):
    MemberFactory(role=Role.STEWARD)

    change_member(steward, {"role": "curator"}, by=steward)

    steward.refresh_from_db()
    assert steward.role == Role.CURATOR


def test_steward_who_may_not_sign_in_does_not_count(steward):
    MemberFactory(role=Role.STEWARD, is_active=False)

    with pytest.raises(ValidationError):
        change_member(steward, {"role": "curator"}, by=steward)


def test_password_is_not_in_the_history(steward, member):
    set_password(member, "seven-lamps", by=steward)

    entry = member.history.first()
    assert entry.history_change_reason == "password changed"
    assert "password" not in {field.name for field in entry.tracked_fields}


def test_own_password_needs_the_old_one(member):
    set_password(member, "seven-lamps", by=member)

    with pytest.raises(ValidationError) as refusal:
        change_own_password(member, old="six-lamps", new="eight-lamps")

    assert refusal.value.message_dict == {"old": ["This is not your password as it is now."]}
    assert member.check_password("seven-lamps")
