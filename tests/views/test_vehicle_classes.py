"""Vehicle classes on the screen."""

from decimal import Decimal

import pytest
from django.urls import reverse

from catalog.models import Deviation, VehicleClass
from catalog.operations.deviations import record_deviation
from catalog.operations.specifications import add_specification
from catalog.operations.vehicle_classes import record_vehicle_class
from tests.factories import (
    CharacteristicFactory,
    CitationFactory,
    ComponentFactory,
    PhotoFactory,
    PositionFactory,
    SourceFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def class_e(curator):
    values = {"designation": "Class E", "gauge_text": "2 ft 6 in", "date_text": "from 1896 to 1908"}
    return record_vehicle_class(values, by=curator)


@pytest.fixture
def class_b(curator, class_e):
    return record_vehicle_class({"designation": "Class B", "based_on": class_e}, by=curator)


def furnish(kind, curator, drawing=True):
    """Give a class one more of everything that its page shows."""
    bore = CharacteristicFactory()
    position = PositionFactory(vehicle_class=kind, component=bore.component, assembly="body")
    add_specification(
        vehicle_class=kind,
        characteristic=bore,
        position=position,
        vehicle=VehicleFactory(vehicle_class=kind),
        upper_mm=Decimal("25.4"),
        source=SourceFactory(),
        by=curator,
    )
    picture = PhotoFactory(vehicle_class=kind, part=None)
    plate = kind.drawings.create(title=f"view {position.pk}", picture=picture)
    plate.spots.create(position=position, x=0.5, y=0.5)
    CitationFactory(event=None, vehicle_class=kind)
    VehicleClassFactory(based_on=kind)
    record_deviation(vehicle_class=kind, kind="noted", reason="longer", by=curator)


def page_of(client, kind):
    return client.get(kind.get_absolute_url()).content.decode()


def test_class_add_reads_gauge_and_years(as_curator):
    typed = {"designation": "Class K", "gauge_text": "2 ft 6 in", "date_text": "from 1898 to 1904"}

    answer = as_curator.post(reverse("vehicle-class-add"), typed)

    kind = VehicleClass.objects.get()
    assert answer.headers["Location"] == "/classes/class-k/"
    assert (kind.gauge_mm, kind.date_earliest.year) == (Decimal(762), 1898)


def test_class_add_keeps_what_was_typed_when_refused(as_curator):
    typed = {"designation": "Class K", "gauge_text": "3 5/4 in", "name": "side-tank locomotive"}

    page = as_curator.post(reverse("vehicle-class-add"), typed).content.decode()

    assert 'value="3 5/4 in"' in page
    assert 'value="side-tank locomotive"' in page
    assert "not less than one" in page
    assert not VehicleClass.objects.exists()


def test_class_change_refuses_a_loop_beside_the_field(as_curator, class_e, class_b):
    form = as_curator.get(reverse("vehicle-class-change", args=[class_e.pk])).context["form"]
    typed = {"designation": "Class E", "based_on": class_b.pk, "seen": form["seen"].value()}

    answer = as_curator.post(reverse("vehicle-class-change", args=[class_e.pk]), typed)

    assert answer.context["form"].errors == {
        "based_on": ["Class B is itself based on Class E: not both ways round."]
    }


def test_class_page_shows_gauge_exactly_and_what_it_consists_of(as_curator, curator, class_e):
    bore = CharacteristicFactory(name="journal diameter", component__name="journal box")
    PositionFactory(vehicle_class=class_e, code="L1", component=bore.component)
    add_specification(
        vehicle_class=class_e,
        characteristic=bore,
        lower_mm=Decimal("63.5"),
        worn_lower_mm=Decimal("60.325"),
        source=SourceFactory(title="Works drawing 27"),
        locator="sheet 2",
        by=curator,
    )

    page = page_of(as_curator, class_e)

    for words in ("2 ft 6 in (762 mm)", "from 1896 to 1908", "1 essential position make"):
        assert words in page
    for words in ("2½ in", "63.5 mm", "2⅜ in", "60.3 mm", "Works drawing 27, sheet 2"):
        assert words in page


def test_class_page_says_what_it_takes_over_and_leaves_out(as_curator, curator, class_e, class_b):
    kept = PositionFactory(vehicle_class=class_e, code="L1")
    left_out = PositionFactory(vehicle_class=class_e, code="D1")
    record_deviation(
        vehicle_class=class_b, kind="dropped", position=left_out, reason="no door", by=curator
    )

    answer = as_curator.get(class_b.get_absolute_url())

    rows = [row for group in answer.context["design"].assemblies for row in group.rows]
    assert [(row.position, row.taken_over_from) for row in rows] == [(kept, "Class E")]
    assert "Without" in answer.content.decode()
    assert "no door" in answer.content.decode()


def test_difference_of_a_class_is_recorded_and_taken_back(as_curator, class_e, class_b):
    position = PositionFactory(vehicle_class=class_e)
    typed = {"kind": "dropped", "position": position.pk, "reason": "no door"}

    as_curator.post(reverse("class-difference-add", args=[class_b.pk]), typed)
    deviation = Deviation.objects.get()
    assert (deviation.vehicle_class, deviation.position) == (class_b, position)

    as_curator.post(reverse("class-difference-remove", args=[deviation.pk]))
    assert not Deviation.objects.exists()


def test_difference_needs_a_position_beside_its_field(as_curator, class_b):
    address = reverse("class-difference-add", args=[class_b.pk])

    answer = as_curator.post(address, {"kind": "dropped", "reason": "no door"})

    assert answer.context["form"].errors == {"position": ["Say which position differs."]}


def test_class_without_base_has_no_differences(as_curator, class_e):
    assert as_curator.get(reverse("class-difference-add", args=[class_e.pk])).status_code == 404


def test_class_list_finds_by_designation_or_name(signed_in, class_e):
    VehicleClassFactory(designation="Class K", name="side-tank locomotive")

    found = signed_in.get(reverse("vehicle-class-list"), {"words": "tank"}).context["page"]

    assert [kind.designation for kind in found] == ["Class K"]


def test_class_pages_take_the_same_queries_for_one_and_three(
    as_curator, curator, class_b, count_queries
):
    furnish(class_b, curator)
    detail, listed = class_b.get_absolute_url(), reverse("vehicle-class-list")
    one = (count_queries(as_curator, detail), count_queries(as_curator, listed))

    furnish(class_b, curator)
    furnish(class_b, curator)

    assert (count_queries(as_curator, detail), count_queries(as_curator, listed)) == one


@pytest.mark.parametrize(
    "name",
    ["vehicle-class-change", "class-position-add", "class-positions-add", "specification-add"],
)
def test_volunteer_sees_a_class_but_does_not_change_it(signed_in, class_e, name):
    assert signed_in.get(reverse(name, args=[class_e.pk])).status_code == 403
    assert "/change/" not in page_of(signed_in, class_e)


def test_visitor_does_not_see_the_members_page(as_visitor, class_e):
    assert as_visitor.get(class_e.get_absolute_url()).status_code == 404


def test_components_of_a_class_are_linked(signed_in, class_e):
    component = ComponentFactory()
    PositionFactory(vehicle_class=class_e, component=component)

    assert f'href="{component.get_absolute_url()}"' in page_of(signed_in, class_e)
