"""Positions on the screen, of classes and of single vehicles."""

import pytest
from django.urls import reverse

from catalog.models import Position
from tests.factories import (
    ComponentAliasFactory,
    ComponentFactory,
    FittingFactory,
    PositionFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def class_e():
    return VehicleClassFactory(designation="Class E")


@pytest.fixture
def box():
    return ComponentAliasFactory(name="axlebox", component__name="journal box").component


def test_position_is_added_to_a_class(as_curator, class_e, box):
    typed = {"code": "l1", "component": box.pk, "is_essential": "on"}

    as_curator.post(reverse("class-position-add", args=[class_e.pk]), typed)

    position = Position.objects.get()
    assert (position.vehicle_class, position.code, position.sequence) == (class_e, "L1", 1)


def test_several_positions_are_added_by_lines(as_curator, class_e, box):
    ComponentFactory(name="hand brake")
    lines = "L1/R1 axlebox, running gear\n\nBK hand brake, brake, optional"

    as_curator.post(reverse("class-positions-add", args=[class_e.pk]), {"lines": lines})

    rows = Position.objects.values_list("code", "component__name", "assembly", "is_essential")
    assert list(rows) == [
        ("L1", "journal box", "running gear", True),
        ("R1", "journal box", "running gear", True),
        ("BK", "hand brake", "brake", False),
    ]


def test_several_positions_are_refused_with_all_that_is_wrong(as_curator, class_e, box):
    lines = "L1 axlebox\nR1 hornblock\nnonsense"

    page = as_curator.post(
        reverse("class-positions-add", args=[class_e.pk]), {"lines": lines}
    ).content.decode()

    assert "Line 2: no component is called “hornblock”." in page
    assert "Line 3: “nonsense” is not a code and a component" in page
    assert "R1 hornblock" in page
    assert not Position.objects.exists()


def test_position_that_the_class_has_is_refused_in_words(as_curator, class_e, box):
    PositionFactory(vehicle_class=class_e, code="L1", component=box)
    address = reverse("class-positions-add", args=[class_e.pk])

    page = as_curator.post(address, {"lines": "R1 journal box\nL1 journal box"}).content.decode()

    assert "The class already has this position." in page
    assert Position.objects.count() == 1


def test_position_is_added_to_one_vehicle_only(as_curator, class_e, box):
    vehicle = VehicleFactory(vehicle_class=class_e)

    typed = {"code": "S1", "component": box.pk, "reason": "a second one, seen on the engine"}
    as_curator.post(reverse("vehicle-position-add", args=[vehicle.pk]), typed)

    position = Position.objects.get()
    assert (position.vehicle, position.vehicle_class, position.is_essential) == (
        vehicle,
        None,
        False,
    )


def test_position_is_changed(as_curator, class_e, box):
    position = PositionFactory(vehicle_class=class_e, component=box, sequence=7)
    typed = {"code": "L2", "component": box.pk, "assembly": "running gear"}

    answer = as_curator.post(reverse("position-change", args=[position.pk]), typed)

    position.refresh_from_db()
    assert answer.headers["Location"] == class_e.get_absolute_url()
    assert (position.code, position.assembly, position.sequence) == ("L2", "running gear", 7)


def test_position_with_a_part_keeps_its_component(as_curator, class_e, box):
    position = FittingFactory(position__component=box, vehicle__vehicle_class=class_e).position
    typed = {"code": position.code, "component": ComponentFactory().pk}

    answer = as_curator.post(reverse("position-change", args=[position.pk]), typed)

    assert list(answer.context["form"].errors) == ["component"]
    position.refresh_from_db()
    assert position.component == box


def test_position_is_removed_unless_a_part_was_there(as_curator):
    free, used = PositionFactory(), FittingFactory().position

    as_curator.post(reverse("position-remove", args=[free.pk]))
    answer = as_curator.post(reverse("position-remove", args=[used.pk]), follow=False)

    assert list(Position.objects.all()) == [used]
    told = as_curator.get(used.vehicle_class.get_absolute_url()).content.decode()
    assert answer.status_code == 302
    assert "is or was at it on" in told


@pytest.mark.parametrize("name", ["position-change", "position-remove"])
def test_volunteer_may_not_change_positions(signed_in, name):
    position = PositionFactory()

    assert signed_in.post(reverse(name, args=[position.pk])).status_code == 403
