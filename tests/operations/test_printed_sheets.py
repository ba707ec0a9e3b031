"""Issues: numbered on, kept byte for byte, and never two of one number."""

import hashlib

import pytest
from django.core.files.storage import default_storage

from catalog.operations.printed_sheets import Printed, issue_sheet

pytestmark = pytest.mark.django_db
SHEET = Printed("vehicle", 7, "Kestrel", "A4", is_public=False)


def as_bytes(number):
    return f"issue {number}".encode()


def test_issues_are_numbered_on_and_kept(member):
    issues = [issue_sheet(SHEET, as_bytes, by=member) for _ in range(2)]

    assert [issue.number for issue in issues] == [1, 2]
    with default_storage.open(issues[1].file.name) as file:
        assert file.read() == b"issue 2"
    assert issues[1].sha256 == hashlib.sha256(b"issue 2").hexdigest()


def test_number_that_somebody_took_meanwhile_is_given_up(member):
    def make(number):
        if number == 1:
            issue_sheet(SHEET, as_bytes, by=member)
        return as_bytes(number)

    issue = issue_sheet(SHEET, make, by=member)

    assert issue.number == 2
    with default_storage.open(issue.file.name) as file:
        assert file.read() == b"issue 2"
