"""Components on the screen."""

import re
from decimal import Decimal

import pytest
from django.urls import reverse

from catalog.models import Component
from catalog.operations.components import (
    add_characteristic,
    add_mating_rule,
    record_component,
)
from catalog.operations.marks import add_known_mark
from tests.factories import (
    CharacteristicFactory,
    ComponentFactory,
    FittingFactory,
    MeasurementFactory,
    PartFactory,
    PhotoFactory,
    PositionFactory,
    SourceFactory,
    SpecificationFactory,
    VehicleClassFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def journal_box(member):
    return record_component(
        {"name": "journal box", "aliases": [("axlebox", "uk"), ("oil box", "works")]}, by=member
    )


def furnish(component, curator):
    """Give a component one of everything that its page shows."""
    bore = add_characteristic(component, name="journal diameter", by=curator)
    inner = add_characteristic(ComponentFactory(), name="diameter", by=curator)
    outer = add_characteristic(ComponentFactory(), name="width", by=curator)
    add_mating_rule(bore, inner, least_mm=Decimal("0.4"), by=curator, source=SourceFactory())
    add_mating_rule(outer, bore, greatest_mm=Decimal("25.4"), is_required=False, by=curator)
    add_known_mark(component, f"T.I. {bore.pk}", vehicle_class=VehicleClassFactory(), by=curator)
    PositionFactory(component=component)
    PartFactory(component=component, identification_status="agreed", quantity=3)


def page_of(client, component):
    return client.get(component.get_absolute_url()).content.decode()


def test_component_list_finds_by_any_name_and_counts(signed_in, journal_box):
    ComponentFactory(name="drawhead")
    PartFactory.create_batch(2, component=journal_box, identification_status="agreed", quantity=3)
    PositionFactory.create_batch(4, component=journal_box)

    answer = signed_in.get(reverse("component-list"), {"words": "AXLEBOX"})

    found = list(answer.context["page"])
    assert found == [journal_box]
    assert (found[0].position_count, found[0].piece_count) == (4, 6)


def test_component_list_says_what_to_do_when_nothing_is_found(signed_in, journal_box):
    page = signed_in.get(reverse("component-list"), {"words": "flange"}).content.decode()

    assert "No component is called that." in page


def test_component_add_records_name_and_other_names_in_one_line(signed_in):
    typed = {"name": "journal box", "aliases": "axlebox (UK), oil box (works), grease box"}

    answer = signed_in.post(reverse("component-add"), typed)

    component = Component.objects.get()
    assert answer.headers["Location"] == component.get_absolute_url()
    assert set(component.aliases.values_list("name", "usage")) == {
        ("axlebox", "uk"),
        ("oil box", "works"),
        ("grease box", "other"),
    }


def test_component_add_keeps_what_was_typed_when_refused(signed_in, journal_box):
    typed = {"name": "axlebox", "definition": "Holds the brass."}

    page = signed_in.post(reverse("component-add"), typed).content.decode()

    assert "“axlebox” is known as journal box here." in page
    assert "Holds the brass." in page
    assert Component.objects.count() == 1


def test_component_change_shows_and_sets_the_other_names(signed_in, journal_box):
    address = reverse("component-change", args=[journal_box.pk])
    form = signed_in.get(address).context["form"]
    assert form["aliases"].value() == "axlebox (UK), oil box (works)"

    typed = {"name": "journal box", "aliases": "axlebox (UK)", "seen": form["seen"].value()}
    signed_in.post(address, typed)

    assert [alias.name for alias in journal_box.aliases.all()] == ["axlebox"]


def test_component_change_is_refused_when_somebody_else_changed_it_first(signed_in, journal_box):
    address = reverse("component-change", args=[journal_box.pk])
    typed = {"name": "journal box", "seen": journal_box.history.get().pk}
    signed_in.post(address, {**typed, "definition": "first"})

    page = signed_in.post(address, {**typed, "definition": "second"}).content.decode()

    journal_box.refresh_from_db()
    assert journal_box.definition == "first"
    assert "changed this while you were typing" in page


def test_component_detail_shows_rules_both_ways_in_both_systems(as_curator, curator, journal_box):
    furnish(journal_box, curator)

    page = page_of(as_curator, journal_box)

    shown = re.sub(r'<span class="visually-hidden">[^<]*</span>', "", page)
    assert " ".join(shown.split()).count("journal diameter over") == 1
    assert "1 in</span>" in page
    assert "25.4 mm" in page
    assert "advisory" in page


def test_component_detail_shows_each_picture_of_where_to_measure_once(signed_in, journal_box):
    picture = PhotoFactory(component=journal_box, part=None, role="drawing")
    for name in ("bore", "height"):
        CharacteristicFactory(component=journal_box, name=name, picture=picture)
    CharacteristicFactory(component=journal_box, name="flange width")

    page = signed_in.get(journal_box.get_absolute_url()).content.decode()

    assert page.count('alt="Drawing of where to measure: bore; height"') == 1
    assert page.count('data-label="Picture">below') == 2
    assert page.count('data-label="Picture">none yet') == 1


def test_component_detail_leads_to_its_parts(signed_in, journal_box):
    PartFactory(component=journal_box, identification_status="agreed", quantity=3)

    page = page_of(signed_in, journal_box)

    assert f'href="{reverse("part-list")}?component={journal_box.pk}"' in page
    assert "</span> pieces under 1 number." in page


def test_component_detail_warns_of_a_name_with_two_meanings(signed_in, member):
    record_component({"name": "bogie", "aliases": [("truck", "us")]}, by=member)
    wagon = record_component({"name": "open wagon", "aliases": [("truck", "uk")]}, by=member)

    assert "“truck” also means a" in page_of(signed_in, wagon)


def test_component_detail_shows_hazards_with_their_caution(signed_in, journal_box):
    journal_box.hazards.create(slug="spring", label="Stored energy", caution="It can fly out.")

    assert "It can fly out." in page_of(signed_in, journal_box)


def test_component_pages_take_the_same_queries_for_one_and_three(
    as_curator, curator, journal_box, count_queries
):
    furnish(journal_box, curator)
    detail, listed = journal_box.get_absolute_url(), reverse("component-list")
    one = (count_queries(as_curator, detail), count_queries(as_curator, listed))

    for _ in range(2):
        furnish(record_component({"name": f"box {_}"}, by=curator), curator)
    bore = journal_box.characteristics.get()
    for number in range(2):
        other = add_characteristic(ComponentFactory(), name="bore", by=curator)
        add_mating_rule(bore, other, least_mm=number, by=curator, source=SourceFactory())
        add_known_mark(journal_box, f"{number}", vehicle_class=VehicleClassFactory(), by=curator)
        FittingFactory(position__component=journal_box)

    assert (count_queries(as_curator, detail), count_queries(as_curator, listed)) == one


def test_visitor_does_not_see_components(as_visitor, journal_box):
    assert as_visitor.get(journal_box.get_absolute_url()).status_code == 403
    assert as_visitor.get(reverse("component-list")).status_code == 403


def test_sizes_in_hand_tell_each_measured_part_and_the_limits(signed_in):
    limits = SpecificationFactory()
    part = PartFactory()
    MeasurementFactory(part=part, characteristic=limits.characteristic)
    component = limits.characteristic.component

    page = signed_in.get(reverse("component-sizes", args=[component.slug])).content.decode()

    assert part.get_absolute_url() in page
    assert f"<strong>{limits.vehicle_class}</strong>: ≈ 2.480 in (63 mm)" in page


def test_sizes_in_hand_say_so_where_nothing_is_measured(signed_in, journal_box):
    page = signed_in.get(reverse("component-sizes", args=[journal_box.slug])).content.decode()

    assert "Nothing is measured on it yet." in page
