"""The sheet of what a part may be: read, measure, see it settle, propose."""

import pytest
from django.urls import reverse

from catalog.models import Instrument, Measurement
from tests.corner import lay_out_corner
from tests.factories import PartMarkFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    corner = lay_out_corner()
    corner.part("casting", None)
    return corner


@pytest.fixture
def address(corner):
    return reverse("part-identity", args=[corner.parts["casting"].pk])


def test_sheet_says_what_to_measure_where_and_with_what(signed_in, address):
    page = signed_in.get(address).content.decode()

    assert "Measure next" in page
    assert "Where: Across the bearing surface, square to it." in page
    assert "Something else" in page


def test_taking_the_measurement_settles_the_answer_at_once(signed_in, corner, address):
    caliper = Instrument.objects.get(slug="vernier-caliper")
    sent = {"name": "bore", "length": "64.10 mm", "instrument": caliper.pk}

    answer = signed_in.post(address, sent, follow=True).content.decode()

    reading = corner.parts["casting"].measurements.get()
    assert (reading.name, reading.instrument) == ("bore", caliper)
    assert ": bore 64.100 ± 0.029 mm. Now: Almost certainly a class E bearing" in answer


@pytest.mark.parametrize(
    ("length", "words"),
    [
        ("64.1", "“64.1” has no unit."),
        ("-3 mm", "below zero"),
        ("", "This field is required"),
    ],
)
def test_a_reading_without_sense_is_refused_beside_its_field(signed_in, address, length, words):
    answer = signed_in.post(address, {"name": "bore", "length": length})

    assert words in answer.content.decode()
    assert Measurement.objects.count() == 0


def test_a_characteristic_that_the_component_lacks_is_refused_in_words(signed_in, corner):
    corner.part("box", "journal box")
    address = reverse("part-identity", args=[corner.parts["box"].pk])

    answer = signed_in.post(address, {"name": "bore", "length": "64.1 mm"})

    words = "A journal box has no “bore”. It is measured at: axle hole, flange width."
    assert words in answer.content.decode()
    assert Measurement.objects.count() == 0


def test_a_candidate_is_proposed_with_basis_and_reasons(signed_in, member, corner, address):
    corner.measure("casting", "bore", "64.1")
    key = f"{corner.components['bearing brass'].pk}-{corner.vehicle_class.pk}"
    where = reverse("part-identity-propose", args=[corner.parts["casting"].pk])

    answer = signed_in.post(where, {"candidate": key})

    said = corner.parts["casting"].identifications.get()
    assert answer.url == corner.parts["casting"].get_absolute_url()
    assert (said.component, said.vehicle_class) == (
        corner.components["bearing brass"],
        corner.vehicle_class,
    )
    assert (said.basis, said.confidence, said.made_by) == ("dimensions", "probable", member)
    assert "Bore 64.100 ± 0.029 mm: " in said.reasons


def test_a_candidate_that_is_none_is_not_found(signed_in, corner):
    where = reverse("part-identity-propose", args=[corner.parts["casting"].pk])

    for key in ("something-else", "99-99", ""):
        assert signed_in.post(where, {"candidate": key}).status_code == 404


def test_sheet_is_for_members(client, as_visitor, address):
    assert as_visitor.get(address).status_code == 403


def test_queries_are_the_same_for_one_and_three_look_alikes(
    signed_in, corner, address, count_queries
):
    corner.measure("casting", "bore", "64.1")
    corner.part("brass 1", "bearing brass")
    corner.measure("brass 1", "bore", "64.12")
    one = count_queries(signed_in, address)

    for number in (2, 3):
        corner.part(f"brass {number}", "bearing brass")
        corner.measure(f"brass {number}", "bore", "64.12")

    assert count_queries(signed_in, address) == one


def test_list_of_unidentified_leads_to_the_sheets(signed_in, corner, count_queries):
    corner.measure("casting", "bore", "64.1")
    where = reverse("part-unidentified")
    page = signed_in.get(where).content.decode()
    one = count_queries(signed_in, where)

    assert reverse("part-identity", args=[corner.parts["casting"].pk]) in page
    assert "Wagon 31 lacks a bearing brass among 6 things" in page
    for number in (2, 3):
        PartMarkFactory(part=corner.part(f"casting {number}", None), text="?")
        corner.measure(f"casting {number}", "bore", "64.1")
    assert count_queries(signed_in, where) == one


def test_when_everything_has_a_name_the_list_says_so(signed_in):
    page = signed_in.get(reverse("part-unidentified")).content.decode()

    assert "Everything in hand has a name." in page


def test_the_part_says_where_each_size_is_measured_and_when_repeats_disagree(signed_in, corner):
    part = corner.part("brass", "bearing brass")
    corner.measure("brass", "bore", "66.9", "68.2")

    page = signed_in.get(part.get_absolute_url()).content.decode()

    assert "bore: Across the bearing surface, square to it." in page
    assert "differ by more than their uncertainty explains" in page
