"""Stated lines: read as they are added, tied to components, settled by people."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import SearchEntry
from catalog.operations.stated_lines import (
    add_stated_line,
    add_stated_lines,
    change_stated_line,
    remove_stated_line,
    settle_line,
    unsettle_line,
)
from tests.factories import (
    AccessionFactory,
    ComponentAliasFactory,
    ComponentFactory,
    StatedLineFactory,
)

pytestmark = pytest.mark.django_db


def test_line_is_read_and_tied_to_its_component(member):
    box = ComponentFactory(name="journal box")

    line = add_stated_line(AccessionFactory(), "seven journal boxes, some with brasses", by=member)

    assert (line.quantity, line.is_approximate, line.component) == (7, False, box)


def test_line_is_tied_by_an_alias(member):
    alias = ComponentAliasFactory(name="axlebox")

    line = add_stated_line(AccessionFactory(), "two axleboxes", by=member)

    assert line.component == alias.component


def test_given_quantity_goes_before_the_words(member):
    line = add_stated_line(
        AccessionFactory(), "ten hinges", quantity=9, is_approximate=True, by=member
    )

    assert (line.quantity, line.is_approximate, line.component) == (9, True, None)


def test_lines_are_added_one_a_line_in_order(member):
    accession = AccessionFactory()

    add_stated_lines(accession, "3 drawheads\n\n  various castings \n", by=member)

    lines = accession.stated_lines.values_list("text", "quantity", "sequence")
    assert list(lines) == [("3 drawheads", 3, 0), ("various castings", None, 1)]


def test_lines_are_added_all_or_none(member):
    accession = AccessionFactory()

    with pytest.raises(ValidationError):
        add_stated_lines(accession, f"3 drawheads\n{'long ' * 60}", by=member)

    assert not accession.stated_lines.exists()


def test_nothing_stated_is_asked_for(member):
    with pytest.raises(ValidationError, match="one thing a line"):
        add_stated_lines(AccessionFactory(), " \n ", by=member)


def test_accession_is_found_by_what_was_stated(member):
    accession = AccessionFactory()

    line = add_stated_line(accession, "a crate of volute springs", by=member)
    assert "volute" in SearchEntry.objects.get(kind="accession").words

    remove_stated_line(line, by=member)
    assert "volute" not in SearchEntry.objects.get(kind="accession").words


def test_settling_needs_a_note(curator):
    line = StatedLineFactory()

    with pytest.raises(ValidationError, match="Say how it was settled"):
        settle_line(line, "  ", by=curator)


def test_settled_line_waits_again_when_its_number_changes(curator):
    line = settle_line(StatedLineFactory(quantity=10), "counted from memory", by=curator)

    change_stated_line(line, {"text": "ten hinges, rusty"}, by=curator)
    assert line.settled == "counted from memory"

    change_stated_line(line, {"quantity": 11}, by=curator)
    assert line.settled == ""


def test_settled_line_is_opened_again(curator):
    line = settle_line(StatedLineFactory(), "counted from memory", by=curator)

    assert unsettle_line(line, by=curator).settled == ""
