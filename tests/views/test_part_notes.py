"""Marks and measurements written down beside a part."""

import pytest
from django.urls import reverse

from catalog.models import Measurement, PartMark
from tests.factories import (
    CharacteristicFactory,
    ComponentFactory,
    PartFactory,
    PartMarkFactory,
    PhotoFactory,
)

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


def test_measurement_without_unit_is_refused_in_words(signed_in):
    part = PartFactory()

    answer = signed_in.post(
        reverse("part-measure", args=[part.pk]),
        {"measurement-name": "bore", "measurement-length": "14"},
    )

    html = answer.content.decode()
    assert "“14” has no unit. Type 14 in, 14 ft or 14 mm." in html
    assert 'value="14"' in html
    assert not Measurement.objects.exists()


@pytest.mark.parametrize("typed", ["3 5/4 in", "5 x 9"])
def test_measurement_that_is_no_length_is_refused(signed_in, typed):
    part = PartFactory()

    answer = signed_in.post(
        reverse("part-measure", args=[part.pk]),
        {"measurement-name": "bore", "measurement-length": typed},
    )

    assert f"“{typed}”" in answer.content.decode()
    assert not Measurement.objects.exists()


def test_measurement_of_an_identified_part_is_at_a_characteristic(signed_in):
    bore = CharacteristicFactory(component=ComponentFactory(), name="journal bore")
    part = PartFactory(component=bore.component, identification_status="proposed")
    address = reverse("part-measure", args=[part.pk])

    page = signed_in.get(address).content.decode()
    signed_in.post(
        address, {"measurement-characteristic": bore.pk, "measurement-length": "2 1/2 in"}
    )

    assert 'name="measurement-name"' not in page
    assert Measurement.objects.get().characteristic == bore


def test_the_form_of_a_reading_shows_where_to_measure(signed_in):
    picture = PhotoFactory(caption="the works' drawing")
    bore = CharacteristicFactory(name="journal bore", picture=picture)
    CharacteristicFactory(component=bore.component, name="height", picture=picture)
    part = PartFactory(component=bore.component, identification_status="proposed")

    form = signed_in.get(reverse("part-measure", args=[part.pk])).content.decode()
    record = signed_in.get(part.get_absolute_url()).content.decode()

    for page in (form, record):
        assert page.count(picture.url_320) == 1
        assert "<p>height; journal bore</p>" in page
