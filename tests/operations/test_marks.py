"""Marks written down as read."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import PartMark, SearchEntry
from catalog.operations.marks import add_mark, change_mark, remove_mark
from tests.factories import PartFactory

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
