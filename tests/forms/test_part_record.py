"""Test the forms on the record of a part: drawn once, and anew when what they offer changes."""

from catalog.forms.part_record import identify_form, mark_form, measurement_form
from catalog.models import Characteristic
from catalog.operations.record import change, record_new
from tests.factories import CharacteristicFactory, ComponentFactory, PartFactory


def test_identify_form_offers_a_component_as_soon_as_it_is_there(db):
    identify_form()

    ComponentFactory(name="hinge")

    assert ">hinge</option>" in identify_form()


def test_identify_form_is_drawn_once(db, django_assert_num_queries):
    identify_form()

    with django_assert_num_queries(1):
        identify_form()


def test_measurement_form_offers_what_the_component_is_measured_at(member):
    bore = CharacteristicFactory(name="bore")
    boxes = PartFactory.create_batch(2, component=bore.component, identification_status="agreed")
    measurement_form(boxes[0])

    width = {"component": bore.component, "name": "width"}
    change(bore, {"name": "journal bore"}, by=member)
    record_new(Characteristic, width, by=member)

    drawn = measurement_form(boxes[1])
    assert ">journal bore</option>" in drawn
    assert ">width</option>" in drawn


def test_measurement_form_asks_an_unidentified_part_for_a_name(db):
    drawn = measurement_form(PartFactory())

    assert 'name="measurement-name"' in drawn
    assert 'name="measurement-characteristic"' not in drawn


def test_mark_form_is_the_same_for_every_part(db):
    assert mark_form() is mark_form()
