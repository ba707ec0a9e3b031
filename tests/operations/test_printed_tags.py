"""Codes for tags: drawn once, remembered, and never one that was ever on anything."""

from random import Random

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Location, PrintedTag
from catalog.operations.captures import undo_capture
from catalog.operations.parts import record_part
from catalog.operations.printed_tags import draw_tags, tag_locations
from catalog.queries.tags import latest_printings
from catalog.reckoning.codes import is_valid_tag_code
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db


def test_tags_are_valid_and_remembered_with_who_printed_them(member):
    tags = draw_tags(24, by=member)

    codes = set(PrintedTag.objects.filter(printed_by=member).values_list("code", flat=True))
    assert codes == {tag.code for tag in tags}
    assert (len(codes), all(map(is_valid_tag_code, codes))) == (24, True)


def test_code_that_was_printed_is_not_drawn_again(member):
    first = draw_tags(5, by=member, random=Random(7))

    second = draw_tags(5, by=member, random=Random(7))

    assert {tag.code for tag in first} & {tag.code for tag in second} == set()
    assert [tags[0].sheet for tags in (first, second)] == [1, 2]


@pytest.mark.parametrize("make", [PartFactory, LocationFactory])
def test_code_that_something_bears_is_not_drawn(member, make):
    code = draw_tags(1, by=member, random=Random(7))[0].code
    PrintedTag.objects.all().delete()
    make(tag=code)

    assert draw_tags(1, by=member, random=Random(7))[0].code != code


def test_code_of_a_tag_that_was_taken_off_is_not_drawn(member):
    code = draw_tags(1, by=member, random=Random(7))[0].code
    PrintedTag.objects.all().delete()
    undo_capture(record_part({"tag": code}, by=member), by=member)

    assert draw_tags(1, by=member, random=Random(7))[0].code != code


@pytest.mark.parametrize("count", [0, 501])
def test_nothing_and_too_many_are_refused(member, count):
    with pytest.raises(ValidationError, match="between 1 and 500"):
        draw_tags(count, by=member)


def test_location_without_tag_gets_one_and_others_keep_theirs(member):
    bare, tagged = LocationFactory(), LocationFactory(tag="K7Q-2M9V")

    tag_locations([bare, tagged], by=member)

    tags = dict(Location.objects.values_list("pk", "tag"))
    assert tags[tagged.pk] == "K7Q-2M9V"
    assert is_valid_tag_code(tags[bare.pk])
    assert bare.history.first().history_user == member


def test_printings_tell_how_many_tags_are_in_use(member):
    tags = draw_tags(3, by=member)
    PartFactory(tag=tags[0].code)
    LocationFactory(tag=tags[2].code)

    printing = latest_printings()[0]

    assert (printing.count, printing.in_use, printing.printed_by) == (3, 2, member)
