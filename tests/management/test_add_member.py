"""The command that lets the first steward in."""

import io
import re

import pytest
from django.core.management import CommandError, call_command

from catalog.models import Member

pytestmark = pytest.mark.django_db


def test_add_member_prints_a_password_that_works():
    out = io.StringIO()

    call_command("add_member", "stella", stdout=out)

    said = re.fullmatch(r"Added stella as steward\. Password: (\S+)\n", out.getvalue())
    member = Member.objects.get()
    assert member.is_steward
    assert member.check_password(said[1])


def test_add_member_dry_run_adds_nobody():
    out = io.StringIO()

    call_command("add_member", "stella", "--role", "curator", "--dry-run", stdout=out)

    assert out.getvalue() == "stella would be added as curator.\n"
    assert not Member.objects.exists()


def test_add_member_refuses_a_name_twice():
    call_command("add_member", "stella", stdout=io.StringIO())

    with pytest.raises(CommandError, match="“stella” is taken"):
        call_command("add_member", "stella")
