"""Addresses of vehicle classes, their positions, limits, drawings and differences."""

from django.urls import path

from catalog.views import drawings, positions, specifications, vehicle_classes

urlpatterns = [
    path("classes/", vehicle_classes.vehicle_class_list, name="vehicle-class-list"),
    path("classes/add/", vehicle_classes.vehicle_class_add, name="vehicle-class-add"),
    path("classes/<slug:slug>/", vehicle_classes.vehicle_class_detail, name="vehicle-class-detail"),
    path(
        "classes/<int:pk>/change/",
        vehicle_classes.vehicle_class_change,
        name="vehicle-class-change",
    ),
    path(
        "classes/<int:pk>/differences/add/",
        vehicle_classes.class_difference_add,
        name="class-difference-add",
    ),
    path(
        "differences/<int:pk>/remove/",
        vehicle_classes.class_difference_remove,
        name="class-difference-remove",
    ),
    path(
        "classes/<int:pk>/positions/add/", positions.class_position_add, name="class-position-add"
    ),
    path(
        "classes/<int:pk>/positions/add-several/",
        positions.class_positions_add,
        name="class-positions-add",
    ),
    path(
        "vehicles/<int:pk>/positions/add/",
        positions.vehicle_position_add,
        name="vehicle-position-add",
    ),
    path("positions/<int:pk>/change/", positions.position_change, name="position-change"),
    path("positions/<int:pk>/remove/", positions.position_remove, name="position-remove"),
    path(
        "classes/<int:pk>/limits/add/", specifications.specification_add, name="specification-add"
    ),
    path(
        "limits/<int:pk>/change/", specifications.specification_change, name="specification-change"
    ),
    path(
        "limits/<int:pk>/remove/", specifications.specification_remove, name="specification-remove"
    ),
    path("classes/<int:pk>/drawings/add/", drawings.drawing_add, name="drawing-add"),
    path("drawings/<int:pk>/spots/", drawings.drawing_spots, name="drawing-spots"),
    path("drawings/<int:pk>/remove/", drawings.drawing_remove, name="drawing-remove"),
    path(
        "drawings/spots/<int:pk>/remove/",
        drawings.drawing_spot_remove,
        name="drawing-spot-remove",
    ),
]
