"""Marks written down as read, and those that a component is known by."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import PartMark, SearchEntry
from catalog.operations.marks import (
    add_known_mark,
    add_mark,
    change_known_mark,
    change_mark,
    remove_mark,
)
from catalog.reckoning.marks import NOTHING_LEGIBLE
from tests.factories import ComponentFactory, PartFactory

pytestmark = pytest.mark.django_db


def test_mark_is_kept_as_read_and_found_by_it(member):
    part = PartFactory()

    mark = add_mark(part, " T.I. 2?7 ", manner="cast", place="lid", by=member)

    assert (mark.text, mark.manner, mark.place) == ("T.I. 2?7", "cast", "lid")
    assert "T.I. 2?7" in SearchEntry.objects.get(kind="part", object_id=part.pk).words


@pytest.mark.parametrize("text", ["  ", "-", "“.”"])
def test_mark_without_a_letter_or_figure_is_refused_in_words(member, text):
    with pytest.raises(ValidationError, match=r"with \? for each that you cannot read"):
        add_mark(PartFactory(), text, by=member)


def test_mark_read_again_is_corrected_with_its_history(member, curator):
    mark = add_mark(PartFactory(), "2?7", by=member)

    change_mark(mark, {"text": "207"}, by=curator)

    assert [row.text for row in mark.history.all()] == ["207", "2?7"]


def test_mark_taken_off_stays_in_the_history(member):
    part = PartFactory()
    mark = add_mark(part, "B7-2", by=member)

    remove_mark(mark, by=member)

    last = PartMark.history.first()
    assert (last.history_type, last.text, last.history_user) == ("-", "B7-2", member)
    assert "B7-2" not in SearchEntry.objects.get(kind="part", object_id=part.pk).words


def test_known_mark_is_refused_empty_or_twice(member):
    box = ComponentFactory()
    mark = add_known_mark(box, " T.I. 227 ", by=member)

    assert mark.text == "T.I. 227"
    with pytest.raises(ValidationError, match="Write the mark as it stands"):
        add_known_mark(box, " ", by=member)
    for same in ("T.I. 227", "ti 227", "TI-227"):
        with pytest.raises(
            ValidationError, match=f"“{same}” reads like “T.I. 227”, a mark already"
        ):
            add_known_mark(box, same, by=member)
    assert add_known_mark(ComponentFactory(), "TI 227", by=member).text == "TI 227"


@pytest.mark.parametrize("text", ["?", "? …", "-", "“.”"])
def test_known_mark_of_which_nothing_is_legible_is_refused_in_words(member, text):
    mark = add_known_mark(ComponentFactory(), "K?88", by=member)

    with pytest.raises(ValidationError, match=NOTHING_LEGIBLE):
        add_known_mark(mark.component, text, by=member)
    with pytest.raises(ValidationError, match=NOTHING_LEGIBLE):
        change_known_mark(mark, {"text": text}, by=member)


def test_known_mark_is_changed_but_not_into_another(member):
    box = ComponentFactory()
    add_known_mark(box, "B 7", by=member)
    mark = add_known_mark(box, "K 14", by=member)

    with pytest.raises(ValidationError, match="reads like “B 7”"):
        change_known_mark(mark, {"text": "b7"}, by=member)
    change_known_mark(mark, {"text": " K.14 ", "note": "on the lid"}, by=member)

    mark.refresh_from_db()
    assert (mark.text, mark.note, mark.history.count()) == ("K.14", "on the lid", 2)
