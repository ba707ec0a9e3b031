"""Drawings of classes, and the spots of positions on them."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Drawing, Photo, PositionSpot
from catalog.operations.drawings import (
    add_drawing,
    add_drawing_from_file,
    place_spot,
    remove_drawing,
    remove_spot,
)
from tests.factories import (
    LONG_AGO,
    PhotoFactory,
    PositionFactory,
    SourceFactory,
    VehicleClassFactory,
    VehicleFactory,
)
from tests.samples import picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def drawing(curator):
    kind = VehicleClassFactory(designation="Class E")
    return add_drawing(kind, PhotoFactory(vehicle_class=kind, part=None), title="Plan", by=curator)


def test_drawing_from_a_file_keeps_the_picture_with_the_class(curator):
    kind, source = VehicleClassFactory(), SourceFactory()

    drawing = add_drawing_from_file(kind, picture(), title="Plan", source=source, by=curator)

    shown = drawing.picture
    assert (shown.vehicle_class, shown.role, shown.caption) == (kind, "drawing", "Plan")
    assert (drawing.source, drawing.sequence) == (source, 1)


def test_drawing_refused_leaves_no_picture_behind(curator, drawing):
    with pytest.raises(ValidationError, match="already has a drawing of this title"):
        add_drawing_from_file(drawing.vehicle_class, picture(), title="Plan", by=curator)

    assert Photo.objects.count() == 1


def test_drawing_takes_no_withdrawn_picture(curator):
    with pytest.raises(ValidationError, match="withdrawn"):
        add_drawing(
            VehicleClassFactory(), PhotoFactory(withdrawn_at=LONG_AGO), title="Plan", by=curator
        )


def test_removed_drawing_leaves_the_picture(curator, drawing):
    place_spot(PositionFactory(vehicle_class=drawing.vehicle_class), drawing, 0.5, 0.5, by=curator)

    remove_drawing(drawing, by=curator)

    assert not Drawing.objects.exists()
    assert PositionSpot.history.filter(history_type="-").get().history_user == curator
    assert Photo.objects.count() == 1


def test_spot_is_placed_moved_and_removed(curator, drawing):
    position = PositionFactory(vehicle_class=drawing.vehicle_class)

    place_spot(position, drawing, 0.25, 0.5, by=curator)
    spot = place_spot(position, drawing, 0.3, 0.6, by=curator)

    assert list(drawing.spots.values_list("x", "y")) == [(0.3, 0.6)]
    remove_spot(spot, by=curator)
    assert not drawing.spots.exists()


@pytest.mark.parametrize(("x", "y"), [(-0.1, 0.5), (0.5, 1.01)])
def test_spot_lies_on_the_drawing(curator, drawing, x, y):
    position = PositionFactory(vehicle_class=drawing.vehicle_class)

    with pytest.raises(ValidationError, match="The spot lies outside the drawing"):
        place_spot(position, drawing, x, y, by=curator)


def test_spot_is_for_positions_of_the_family_only(curator, drawing):
    derived = VehicleClassFactory(based_on=drawing.vehicle_class)
    own = VehicleFactory(vehicle_class=derived)
    for kin in (
        PositionFactory(vehicle_class=derived),
        PositionFactory(vehicle_class=None, vehicle=own),
    ):
        place_spot(kin, drawing, 0.5, 0.5, by=curator)

    with pytest.raises(ValidationError, match="is not a position of Class E"):
        place_spot(PositionFactory(), drawing, 0.5, 0.5, by=curator)
