"""Readings written down beside a part: refused in words, compared, taken back."""

import pytest
from django.urls import reverse

from catalog.models import Measurement
from catalog.operations.photos import withdraw_photo
from tests.factories import CharacteristicFactory, ComponentFactory, PartFactory, PhotoFactory

pytestmark = pytest.mark.django_db


def measure(client, part, name, length):
    address = reverse("part-measure", args=[part.pk])
    typed = {"measurement-name": name, "measurement-length": length}
    return client.post(address, typed, follow=True).content.decode()


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
    picture = PhotoFactory(caption="the works' drawing", role="drawing")
    bore = CharacteristicFactory(name="journal bore", picture=picture)
    CharacteristicFactory(component=bore.component, name="height", picture=picture)
    part = PartFactory(component=bore.component, identification_status="proposed")

    form = signed_in.get(reverse("part-measure", args=[part.pk])).content.decode()
    record = signed_in.get(part.get_absolute_url()).content.decode()

    for page in (form, record):
        assert page.count(picture.url_960) == 1
        assert 'alt="Drawing of where to measure: height; journal bore"' in page
        assert page.index(picture.url_960) < page.index('name="measurement-length"')


def test_a_picture_withdrawn_since_shows_no_longer_where_to_measure(signed_in, curator):
    bore = CharacteristicFactory(name="journal bore")
    bore.picture = PhotoFactory(component=bore.component, part=None)
    bore.save()
    part = PartFactory(component=bore.component, identification_status="proposed")
    before = signed_in.get(part.get_absolute_url()).content.decode()

    withdraw_photo(bore.picture, by=curator, reason="of another box")

    after = signed_in.get(part.get_absolute_url()).content.decode()
    assert [page.count(bore.picture.url_960) for page in (before, after)] == [1, 0]


def test_readings_that_disagree_are_told_at_once(signed_in):
    part = PartFactory()

    first = measure(signed_in, part, "bore", "64.1 mm")
    second = measure(signed_in, part, "bore", "66.0 mm")

    assert "Measure again" not in first
    assert "Bore: The readings 64.100 ± 0.029 mm and 66.000 ± 0.029 mm differ" in second


def test_readings_that_agree_are_told_together(signed_in):
    part = PartFactory()

    measure(signed_in, part, "bore", "64.1 mm")
    page = measure(signed_in, part, "bore", "64.1 mm")

    assert f"Recorded for {part}: bore 64.100 ± 0.029 mm. 2 readings agree: 64.100" in page


def test_reading_is_taken_back_where_it_was_written_down(signed_in):
    part = PartFactory()
    page = measure(signed_in, part, "bore", "64.1 mm")
    address = reverse("measurement-take-back", args=[Measurement.objects.get().pk])

    answer = signed_in.post(address, {"page": "what"})

    assert address in page
    assert answer.headers["Location"] == reverse("part-identity", args=[part.pk])
    assert not Measurement.objects.kept().exists()


def test_names_of_what_is_measured_are_proposed(signed_in):
    CharacteristicFactory(name="hole pitch")

    page = signed_in.get(reverse("part-measure", args=[PartFactory().pk])).content.decode()

    assert '<option value="hole pitch">' in page
