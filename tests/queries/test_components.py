"""Components found by whatever name people have for them."""

import pytest

from catalog.queries.components import (
    ComponentChoice,
    ComponentNames,
    component_choices,
    find_component,
    spelling,
)
from tests.factories import LONG_AGO, ComponentAliasFactory, ComponentFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def journal_box():
    component = ComponentFactory(name="journal box")
    ComponentAliasFactory(component=component, name="axlebox", usage="uk")
    return component


@pytest.mark.parametrize(
    "words", ["journal box", "Journal Boxes", "axlebox", "AXLE-BOX", "axle boxes", " axlebox "]
)
def test_find_component_knows_every_name(journal_box, words):
    ComponentFactory(name="drawhead")

    assert find_component(words) == journal_box


@pytest.mark.parametrize("words", ["", " - ", "axle", "box"])
def test_find_component_does_not_guess(journal_box, words):
    assert find_component(words) is None


def test_find_component_leaves_a_shared_alias_to_people(journal_box):
    other = ComponentAliasFactory(name="axlebox").component

    names = ComponentNames.gather()

    assert names.find("axlebox") is None
    assert set(names.called("axlebox")) == {journal_box, other}


def test_find_component_takes_a_name_before_an_alias(journal_box):
    ComponentAliasFactory(name="journal box")

    assert find_component("journal box") == journal_box


def test_find_component_passes_over_withdrawn_ones(journal_box):
    journal_box.withdrawn_at = LONG_AGO
    journal_box.save()

    assert find_component("axlebox") is None


def test_component_choices_carry_aliases(journal_box, django_assert_num_queries):
    with django_assert_num_queries(2):
        choices = component_choices()

    assert choices == (ComponentChoice(journal_box.pk, "journal box", ("axlebox",)),)


def test_spelling_ignores_case_accents_and_gaps():
    assert spelling("Füll-Stück 2") == "fullstuck2"
