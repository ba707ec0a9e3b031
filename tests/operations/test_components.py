"""Recording components and what belongs to them, and what is refused."""

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Component, SearchEntry
from catalog.operations import components as operations
from catalog.operations.record import restore_version, withdraw
from tests.factories import (
    CharacteristicFactory,
    ComponentFactory,
    MeasurementFactory,
    SpecificationFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def journal_box(member):
    return operations.record_component(
        {"name": "journal box", "aliases": [("axlebox", "uk"), ("oil box", "works")]}, by=member
    )


def refusal(problem):
    return problem.value.messages[0]


def test_record_component_keeps_its_other_names_and_is_found_by_them(journal_box):
    names = set(journal_box.aliases.values_list("name", "usage"))

    assert names == {("axlebox", "uk"), ("oil box", "works")}
    assert journal_box.slug == "journal-box"
    assert "axlebox" in SearchEntry.objects.get(kind="component").words


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("Journal  Box", "There is already a component called journal box."),
        ("axle-box", "“axle-box” is known as journal box here."),
        ("oil boxes", "“oil boxes” is known as journal box here."),
    ],
)
def test_record_component_refuses_a_known_name(journal_box, member, name, words):
    with pytest.raises(ValidationError) as problem:
        operations.record_component({"name": name}, by=member)

    assert refusal(problem).startswith(words)
    assert list(problem.value.error_dict) == ["name"]


def test_record_component_tells_of_a_withdrawn_one(journal_box, curator):
    withdraw(journal_box, by=curator, reason="entered twice")

    with pytest.raises(ValidationError, match="was withdrawn"):
        operations.record_component({"name": "journal box"}, by=curator)


def test_change_component_sets_all_other_names(journal_box, member):
    values = {"name": "journal box", "aliases": [("Axlebox", "uk"), ("grease box", "us")]}

    operations.change_component(journal_box, values, by=member)

    names = set(journal_box.aliases.values_list("name", "usage"))
    assert names == {("Axlebox", "uk"), ("grease box", "us")}
    assert "oil box" not in SearchEntry.objects.get(kind="component").words


def test_change_component_keeps_address_and_other_names_when_only_the_name_changes(
    journal_box, member
):
    operations.change_component(journal_box, {"name": "journal box, plain"}, by=member)

    assert journal_box.slug == "journal-box"
    assert journal_box.aliases.count() == 2


def test_kinds_of_components_make_no_loop(member, curator):
    spring = operations.record_component({"name": "spring"}, by=member)
    volute = operations.record_component({"name": "volute spring", "broader": spring}, by=member)
    tail = operations.record_component({"name": "tail spring", "broader": volute}, by=member)

    with pytest.raises(ValidationError) as problem:
        operations.change_component(spring, {"broader": tail}, by=curator)

    assert refusal(problem) == "A tail spring is itself a kind of spring: not both ways round."
    assert Component.objects.get(pk=spring.pk).broader is None


def test_putting_back_an_old_version_makes_no_loop_either(curator):
    spring, volute = ComponentFactory(), ComponentFactory()
    operations.change_component(spring, {"broader": volute}, by=curator)
    former = spring.history.latest().pk
    operations.change_component(spring, {"broader": None}, by=curator)
    operations.change_component(volute, {"broader": spring}, by=curator)

    with pytest.raises(ValidationError, match="not both ways round"):
        restore_version(spring, former, by=curator)


def test_alias_is_refused_when_the_component_has_it(journal_box, member):
    with pytest.raises(ValidationError, match="The component already has this name"):
        operations.add_alias(journal_box, "AXLEBOX", "uk", by=member)
    with pytest.raises(ValidationError, match="is the name it has already"):
        operations.add_alias(journal_box, "Journal box", by=member)


def test_alias_may_belong_to_two_components(journal_box, member):
    other = ComponentFactory(name="crank box")

    operations.add_alias(other, "axlebox", "uk", by=member)

    assert other.aliases.get().name == "axlebox"


def test_removed_alias_is_no_longer_searched_but_remembered(journal_box, curator):
    operations.remove_alias(journal_box.aliases.get(name="axlebox"), by=curator)

    assert "axlebox" not in SearchEntry.objects.get(kind="component").words
    entry = journal_box.aliases.model.history.filter(history_type="-").get()
    assert (entry.name, entry.history_user) == ("axlebox", curator)


def test_characteristics_stand_in_the_order_of_entry(journal_box, member):
    for name in ("journal diameter", "bolt centers"):
        operations.add_characteristic(journal_box, name=name, by=member)

    assert [str(each) for each in journal_box.characteristics.all()] == [
        "journal diameter",
        "bolt centers",
    ]


def test_characteristic_is_refused_twice(journal_box, member):
    operations.add_characteristic(journal_box, name="bore", by=member)

    with pytest.raises(ValidationError, match="already has a characteristic of this name"):
        operations.add_characteristic(journal_box, name="Bore", by=member)


@pytest.mark.parametrize(
    ("resting", "words"),
    [
        (SpecificationFactory, "specifications rest on it"),
        (MeasurementFactory, "measurements rest on it"),
    ],
)
def test_characteristic_stays_while_something_rests_on_it(curator, resting, words):
    bore = CharacteristicFactory(name="bore")
    resting(characteristic=bore)

    with pytest.raises(ValidationError, match=f"“bore” cannot be removed: {words}"):
        operations.remove_characteristic(bore, by=curator)


def test_characteristic_stays_while_a_mating_rule_speaks_of_it(curator):
    bore, journal = CharacteristicFactory(name="bore"), CharacteristicFactory()
    rule = operations.add_mating_rule(bore, journal, least_mm=Decimal("0.2"), by=curator)
    with pytest.raises(ValidationError, match="Remove the rule first"):
        operations.remove_characteristic(bore, by=curator)

    operations.remove_mating_rule(rule, by=curator)
    operations.remove_characteristic(bore, by=curator)

    assert not bore.component.characteristics.exists()


@pytest.mark.parametrize(
    ("clearance", "words"),
    [
        ({}, "Give the least or the greatest clearance."),
        ({"least_mm": 2, "greatest_mm": 2}, "Both limits are 2 mm, and no piece could be shown"),
        ({"least_mm": 2, "greatest_mm": 1}, "The greatest clearance is below the least"),
        ({"greatest_mm": 2, "worn_greatest_mm": 1}, "when worn is tighter than the limit as new"),
        ({"least_mm": 2, "worn_greatest_mm": 1}, "when worn is below the least: 1 mm against 2 mm"),
    ],
)
def test_mating_rule_refuses_crossed_or_missing_limits(curator, clearance, words):
    bore, journal = CharacteristicFactory.create_batch(2)

    with pytest.raises(ValidationError, match=words):
        operations.add_mating_rule(bore, journal, by=curator, **clearance)


def test_mating_rule_joins_two_and_only_once(curator):
    bore, journal = CharacteristicFactory.create_batch(2)
    operations.add_mating_rule(bore, journal, least_mm=Decimal(1), by=curator)

    with pytest.raises(ValidationError, match="already a rule for these two"):
        operations.add_mating_rule(bore, journal, least_mm=Decimal(2), by=curator)
    with pytest.raises(ValidationError, match="joins two different characteristics"):
        operations.add_mating_rule(bore, bore, least_mm=Decimal(2), by=curator)


def test_second_rule_is_refused_the_other_way_round_too(curator):
    height = CharacteristicFactory(name="height", component__name="journal box")
    other = CharacteristicFactory(name="height", component__name="bearing brass")
    third = CharacteristicFactory()
    operations.add_mating_rule(height, other, least_mm=Decimal(1), by=curator)
    rule = operations.add_mating_rule(other, third, least_mm=Decimal(1), by=curator)

    words = "other way round: journal box height over bearing brass height. Change that one."
    with pytest.raises(ValidationError, match=words):
        operations.add_mating_rule(other, height, least_mm=Decimal(1), by=curator)
    with pytest.raises(ValidationError, match=words):
        operations.change_mating_rule(rule, {"inner": height}, by=curator)


def test_rule_itself_may_be_turned_round(curator):
    bore, journal = CharacteristicFactory.create_batch(2)
    rule = operations.add_mating_rule(bore, journal, least_mm=Decimal(1), by=curator)

    operations.change_mating_rule(rule, {"outer": journal, "inner": bore}, by=curator)

    rule.refresh_from_db()
    assert (rule.outer, rule.inner) == (journal, bore)
