"""Marks written down beside a part."""

import pytest
from django.urls import reverse

from catalog.models import PartMark
from tests.factories import PartFactory, PartMarkFactory

pytestmark = pytest.mark.django_db


def test_mark_is_added_from_the_record(signed_in):
    part = PartFactory()

    answer = signed_in.post(
        reverse("part-mark-add", args=[part.pk]), {"mark-text": "T.I. 2?7", "mark-manner": "cast"}
    )

    assert answer.headers["Location"] == part.get_absolute_url()
    assert part.marks.get().text == "T.I. 2?7"


def test_mark_is_corrected_unless_somebody_did_so_first(signed_in):
    mark = PartMarkFactory(text="2?7")
    address = reverse("part-mark-change", args=[mark.pk])
    seen = mark.history.get().pk

    signed_in.post(address, {"text": "207", "manner": "cast", "seen": seen})
    late = signed_in.post(address, {"text": "217", "manner": "cast", "seen": seen})

    mark.refresh_from_db()
    assert mark.text == "207"
    assert "changed this while you were typing" in late.content.decode()


def test_mark_taken_off_can_be_put_back_at_once(signed_in):
    mark = PartMarkFactory(text="2?7", place="lid")

    page = signed_in.post(reverse("part-mark-remove", args=[mark.pk]), follow=True)

    assert not PartMark.objects.exists()
    assert 'name="mark-place" value="lid"' in page.content.decode()
