"""Stated lines on the screen."""

import pytest
from django.urls import reverse

from catalog.models import StatedLine
from tests.factories import AccessionFactory, ComponentFactory, StatedLineFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def line():
    return StatedLineFactory(text="ten hinges", quantity=10, component=ComponentFactory())


def test_lines_are_added_at_once(signed_in):
    accession = AccessionFactory()

    answer = signed_in.post(
        reverse("stated-line-add", args=[accession.pk]), {"lines": "about ten hinges\n3 drawheads"}
    )

    assert answer.headers["Location"] == f"{accession.get_absolute_url()}#stated"
    assert [line.quantity for line in StatedLine.objects.all()] == [10, 3]


def test_line_too_long_keeps_what_was_typed(signed_in):
    accession = AccessionFactory()
    typed = f"3 drawheads\n{'x' * 300}"

    page = signed_in.post(reverse("stated-line-add", args=[accession.pk]), {"lines": typed})

    assert "3 drawheads" in page.content.decode()
    assert not StatedLine.objects.exists()


def test_line_is_tied_to_a_component(signed_in, line):
    hinge = ComponentFactory(name="strap hinge")
    typed = {"text": "ten hinges", "quantity": 10, "component": hinge.pk}

    signed_in.post(reverse("stated-line-change", args=[line.pk]), typed)

    line.refresh_from_db()
    assert line.component == hinge


def test_curator_settles_and_opens_again(as_curator, line):
    address = reverse("stated-line-settle", args=[line.pk])
    assert "10 hinges stated, none cataloged." in as_curator.get(address).content.decode()

    as_curator.post(address, {"how": "counted from memory"})
    line.refresh_from_db()
    assert line.settled == "counted from memory"

    as_curator.post(reverse("stated-line-unsettle", args=[line.pk]))
    line.refresh_from_db()
    assert line.settled == ""


@pytest.mark.parametrize("name", ["settle", "unsettle", "remove"])
def test_volunteer_neither_settles_nor_removes(signed_in, line, name):
    answer = signed_in.post(reverse(f"stated-line-{name}", args=[line.pk]), {"how": "so"})

    assert answer.status_code == 403
    assert StatedLine.objects.get().settled == ""


def test_curator_takes_a_line_off_and_history_keeps_it(as_curator, line):
    as_curator.post(reverse("stated-line-remove", args=[line.pk]))

    assert not StatedLine.objects.exists()
    history = reverse("record-history", args=["accession", line.accession.pk])
    assert "was not stated" in as_curator.get(history).content.decode()
