"""Drawings of classes on the screen, and the spots of positions."""

import pytest
from django.urls import reverse

from catalog.models import Drawing, PositionSpot
from tests.factories import ComponentFactory, PhotoFactory, PositionFactory, VehicleClassFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def class_e():
    kind = VehicleClassFactory(designation="Class E")
    PositionFactory(vehicle_class=kind, code="L1", sequence=1)
    PositionFactory(vehicle_class=kind, code="R1", sequence=2)
    return kind


@pytest.fixture
def plan(class_e):
    return Drawing.objects.create(
        vehicle_class=class_e,
        title="Plan",
        picture=PhotoFactory(vehicle_class=class_e, part=None),
    )


def test_drawing_add_keeps_the_picture_and_leads_to_placing(as_curator, class_e):
    typed = {"title": "Plan", "file": picture()}

    answer = as_curator.post(reverse("drawing-add", args=[class_e.pk]), typed)

    drawing = Drawing.objects.get()
    assert answer.headers["Location"] == reverse("drawing-spots", args=[drawing.pk])
    assert drawing.picture.vehicle_class == class_e


@pytest.mark.parametrize("is_published", [False, True])
def test_drawing_leads_to_its_picture_where_it_is_shown_to_visitors(as_curator, plan, is_published):
    plan.picture.is_published = is_published
    plan.picture.save()

    pages = (plan.vehicle_class.get_absolute_url(), reverse("drawing-spots", args=[plan.pk]))
    for address in pages:
        words = as_curator.get(address).content.decode()
        assert f'href="{plan.picture.get_absolute_url()}"' in words
        assert ("which visitors do not see yet" in words) is not is_published


def test_drawing_add_refuses_what_is_no_picture(as_curator, class_e):
    file = picture()
    file.file.truncate(10)
    file.size = 10

    answer = as_curator.post(
        reverse("drawing-add", args=[class_e.pk]), {"title": "P", "file": file}
    )

    assert answer.context["form"].errors
    assert not Drawing.objects.exists()


def test_spots_page_proposes_the_next_position_without_a_spot(as_curator, plan):
    address = reverse("drawing-spots", args=[plan.pk])
    first, second = plan.vehicle_class.positions.all()

    as_curator.post(address, {"position": first.pk, "across": "25.5", "down": "50"})

    spot = PositionSpot.objects.get()
    assert (spot.position, spot.x, spot.y) == (first, 0.255, 0.5)
    assert as_curator.get(address).context["form"]["position"].value() == second.pk


def test_spot_beyond_the_drawing_is_refused(as_curator, plan):
    first = plan.vehicle_class.positions.first()

    answer = as_curator.post(
        reverse("drawing-spots", args=[plan.pk]),
        {"position": first.pk, "across": "101", "down": "50"},
    )

    assert list(answer.context["form"].errors) == ["across"]
    assert not PositionSpot.objects.exists()


def test_spot_and_drawing_are_removed(as_curator, plan):
    spot = plan.spots.create(position=plan.vehicle_class.positions.first(), x=0.5, y=0.5)

    as_curator.post(reverse("drawing-spot-remove", args=[spot.pk]))
    assert not PositionSpot.objects.exists()
    as_curator.post(reverse("drawing-remove", args=[plan.pk]))
    assert not Drawing.objects.exists()


def test_drawing_of_a_class_shows_places_without_states(signed_in, plan):
    plan.spots.create(position=plan.vehicle_class.positions.first(), x=0.25, y=0.5)

    page = signed_in.get(plan.vehicle_class.get_absolute_url()).content.decode()

    assert 'x="25.000%" y="50.000%"' in page
    assert "nothing in hand" not in page


def test_spots_page_takes_the_same_queries_for_one_and_three(as_curator, plan, count_queries):
    address = reverse("drawing-spots", args=[plan.pk])
    PositionFactory.create_batch(3, vehicle_class=plan.vehicle_class)
    positions = list(plan.vehicle_class.positions.all())
    plan.spots.create(position=positions[0], x=0.5, y=0.5)
    one = count_queries(as_curator, address)
    for position in positions[1:3]:
        plan.spots.create(position=position, x=0.5, y=0.5)

    assert count_queries(as_curator, address) == one


def test_codes_at_one_place_are_drawn_once_beside_one_another(as_curator, plan):
    for code in ("TR", "PR", "TR"):
        component = ComponentFactory()
        position = PositionFactory(vehicle_class=plan.vehicle_class, component=component, code=code)
        plan.spots.create(position=position, x=0.5, y=0.25)

    page = as_curator.get(reverse("drawing-spots", args=[plan.pk]))

    ((codes, *place),) = page.context["marks"]
    assert (sorted(codes.split("/")), place) == (["PR", "TR"], ["50.000%", "25.000%"])


def test_volunteer_may_not_place_positions(signed_in, plan):
    assert signed_in.get(reverse("drawing-spots", args=[plan.pk])).status_code == 403
