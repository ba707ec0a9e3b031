"""Members on the screen, for stewards only."""

import re

import pytest
from django.urls import reverse

from catalog.models import Member
from tests.factories import MemberFactory

pytestmark = pytest.mark.django_db


def test_member_list_is_for_stewards(as_curator):
    answer = as_curator.get(reverse("member-list"))

    assert answer.status_code == 403
    assert "This is for a steward of the group." in answer.content.decode()


def test_member_add_shows_a_made_up_password_once(as_steward):
    answer = as_steward.post(
        reverse("member-add"), {"username": "otto", "first_name": "Otto", "role": "curator"}
    )

    password = re.search(r"[0-9a-z]{4}-[0-9a-z]{4}-[0-9a-z]{4}", answer.content.decode())[0]
    assert Member.objects.get(username="otto").check_password(password)
    assert "no-store" in answer.headers["Cache-Control"]
    assert password not in as_steward.get(reverse("member-list")).content.decode()


def test_member_add_with_an_easy_password_says_so_beside_it(as_steward):
    typed = {"username": "otto", "role": "volunteer", "password": "password"}

    answer = as_steward.post(reverse("member-add"), typed)

    assert answer.context["form"].errors == {"password": ["This password is too common."]}
    assert not Member.objects.filter(username="otto").exists()


def test_member_change_refuses_to_lose_the_last_steward(as_steward, steward):
    address = reverse("member-change", args=[steward.pk])

    answer = as_steward.post(address, {"role": "volunteer", "is_active": "on"})

    steward.refresh_from_db()
    assert steward.is_steward
    assert "stella is the only steward" in answer.content.decode()


def test_member_change_is_written_into_the_history(as_steward, member):
    address = reverse("member-change", args=[member.pk])

    as_steward.post(address, {"first_name": "Walt", "role": "curator", "is_active": "on"})

    member.refresh_from_db()
    assert (member.first_name, member.role) == ("Walt", "curator")
    assert "member changed" in as_steward.get(address).content.decode()


def test_member_who_left_cannot_sign_in(as_steward, member, client):
    member.set_password("seven-lamps")
    member.save()
    as_steward.post(reverse("member-change", args=[member.pk]), {"role": "volunteer"})
    client.logout()

    assert not client.login(username="walt", password="seven-lamps")


def test_member_password_makes_a_new_one(as_steward, member):
    answer = as_steward.post(reverse("member-password", args=[member.pk]))

    member.refresh_from_db()
    assert member.check_password(answer.context["password"])


def test_own_password_is_changed_and_the_member_stays_signed_in(signed_in, member):
    member.set_password("seven-lamps")
    member.save()
    signed_in.force_login(member)

    signed_in.post(reverse("own-password"), {"old": "seven-lamps", "password": "eight-lamps"})

    member.refresh_from_db()
    assert member.check_password("eight-lamps")
    assert signed_in.get(reverse("own-password")).status_code == 200


def test_own_password_with_a_wrong_old_one_changes_nothing(signed_in, member):
    answer = signed_in.post(reverse("own-password"), {"old": "x", "password": "eight-lamps"})

    assert answer.context["form"].errors == {"old": ["This is not your password as it is now."]}


def test_signing_in_writes_no_history(client, member):
    member.set_password("seven-lamps")
    member.save()
    before = member.history.count()

    client.post(reverse("login"), {"username": "walt", "password": "seven-lamps"})

    assert member.history.count() == before


def test_member_list_takes_the_same_queries_for_one_and_three(as_steward, count_queries):
    one = count_queries(as_steward, reverse("member-list"))
    MemberFactory.create_batch(2)

    assert count_queries(as_steward, reverse("member-list")) == one
