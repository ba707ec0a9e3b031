"""Finding records by words, whatever people type."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from catalog.models import SearchEntry
from catalog.operations.components import change_component
from catalog.operations.identifications import propose_identification
from catalog.operations.parts import record_part
from catalog.operations.searching import index_record
from catalog.queries.search import exactly, search
from tests.factories import (
    AccessionFactory,
    ComponentAliasFactory,
    ComponentFactory,
    LocationFactory,
    PartFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


def titles(words, **options):
    return [result.title for result in search(words, limit=20, **options)]


@pytest.fixture
def box(db):
    box = ComponentFactory(name="journal box")
    ComponentAliasFactory(component=box, name="axlebox")
    ComponentAliasFactory(component=box, name="oil box")
    return box


@pytest.fixture
def part(member, box):
    gift = AccessionFactory(year=2026, serial=4)
    part = record_part({"description": "cracked, with lid"}, by=member, accession=gift)
    propose_identification(part, component=box, by=member)
    return part


@pytest.mark.parametrize("words", ["lid", "cra", "CRACKED lid", "2026.4.1", "2026.4", "journ bo"])
def test_part_is_found_by_words_whole_or_begun(part, words):
    assert titles(words) == ["2026.4.1 journal box"]


@pytest.mark.parametrize("words", ["axlebox", "Axle-Box", "axle box", "oil box", "oil boxes lid"])
def test_part_is_found_by_other_names_of_its_component(part, words):
    assert titles(words) == ["2026.4.1 journal box"]


def test_every_word_must_be_there(part):
    assert titles("axlebox spring") == []


def test_each_kind_is_found_and_led_to(box, part):
    wagon = VehicleFactory(label="Box wagon 9")
    index_record(wagon)
    index_record(box)

    found = {result.kind: result.url for result in search("box", limit=20)}

    assert found == {
        "vehicle": wagon.get_absolute_url(),
        "component": box.get_absolute_url(),
        "part": part.get_absolute_url(),
    }


def test_title_that_begins_with_the_words_comes_first(part):
    for label in ("Old wagon 9", "Wagon 9"):
        index_record(VehicleFactory(label=label))

    assert titles("wagon") == ["Wagon 9", "Old wagon 9"]


def test_withdrawn_record_is_not_found(part, curator):
    part.withdrawn_at = part.recorded_at
    index_record(part)

    assert titles("journal") == []


def test_parts_never_crowd_out_the_rest(member):
    for number in range(4):
        record_part({"description": f"hinge {number}"}, by=member)
    index_record(ComponentFactory(name="hinge"))

    assert [one.kind for one in search("hinge", limit=2)] == ["component", "part", "part"]


def test_visitor_finds_published_titles_only(part):
    shown = PartFactory(description="journal lamp", is_published=True)
    index_record(shown)
    index_record(PartFactory(description="journal lamp"))

    assert titles("journal", published_only=True) == [f"{shown.number} journal lamp"]
    assert titles("2026", published_only=True) == [f"{shown.number} journal lamp"]


def test_visitor_cannot_search_by_what_only_members_read():
    index_record(PartFactory(description="lamp", condition="bought dearly", is_published=True))

    assert titles("dearly") != []
    assert titles("dearly", published_only=True) == []


def test_renamed_component_renews_the_words_of_its_parts(part, box, curator):
    change_component(box, {"name": "axle bearing"}, by=curator)

    assert titles("bearing lid") == ["2026.4.1 axle bearing"]


@pytest.mark.parametrize(
    "typed", ['"', "*", "-", "(", "a OR", "NEAR(", "title:x", "'; --", "a:*", "\\", "&|!", "", "\0"]
)
def test_nothing_typed_does_harm(part, typed):
    assert search(typed, limit=5) == ()


@given(st.text(max_size=40))
@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_text_is_taken_as_words(part, typed):
    assert isinstance(search(typed, limit=5), tuple)
    assert SearchEntry.objects.count() == 1


def test_exact_number_or_tag_is_told_at_once(part):
    shelf = LocationFactory(tag="K7Q-2M9V")

    assert exactly(" 2026.04.1 ") == part
    assert exactly("2026.4") == part.accession
    assert exactly("k7q2m9v") == shelf
    assert exactly("2026.4.99") is None
    assert exactly("journal box") is None
