"""Moving parts without a signal: where they go, the parts, done; sent when there is one."""

import pytest

from catalog.models import Move
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db(transaction=True)
CARRY = "form[data-carry][data-ready]"
SHELF, PART = "K7Q-2M28", "K7Q-2M9V"


@pytest.fixture
def phone(new_phone, member):
    """Lend a phone that has lost its signal since the catalog was open on it."""
    phone = new_phone(member).open()
    phone.signal(False)
    phone.page.goto("/move/")
    phone.page.wait_for_selector(CARRY)
    return phone


@pytest.fixture
def shelf():
    return LocationFactory(name="Rack 2", tag=SHELF)


def note_move(phone, where, parts):
    phone.fill("Tag of the location", where)
    phone.fill("Parts, one a line", parts)
    phone.press("Move them")


def test_parts_are_moved_when_there_is_a_signal_again(shelf, phone):
    part = PartFactory(tag=PART)
    note_move(phone, SHELF, PART)
    phone.await_strip(1, 0)
    phone.page.reload()
    phone.page.wait_for_selector(CARRY)

    phone.signal(True)
    phone.await_strip(0, 1)

    part.refresh_from_db()
    assert (part.location, Move.objects.count()) == (shelf, 1)


def test_move_of_an_unknown_part_is_mended_and_sent(shelf, phone):
    part = PartFactory(tag=PART)
    note_move(phone, SHELF, "9.9.9")
    phone.signal(True)
    phone.await_words("No part goes by 9.9.9.")

    phone.press("Mend")
    phone.page.wait_for_selector("[name=pieces][aria-invalid]")
    note_move(phone, SHELF, PART)
    phone.await_strip(0, 1)

    part.refresh_from_db()
    assert part.location == shelf


def test_piece_taken_in_before_it_is_moved_arrives_before_its_move(shelf, phone, member):
    phone.reopen("/take-in/")
    phone.save("bent strap", tag=PART)
    phone.page.goto("/move/")
    phone.page.wait_for_selector(CARRY)
    note_move(phone, SHELF, PART)
    phone.await_strip(2, 0)

    phone.signal(True)
    phone.await_strip(0, 2)

    assert str(Move.objects.get().part.description) == "bent strap"
