"""Addresses of locations and of moving parts between them."""

from django.urls import path

from catalog.views import moves, places

urlpatterns = [
    path("locations/", places.location_list, name="location-list"),
    path("locations/map/", places.shed_map, name="shed-map"),
    path("locations/add/", places.location_add, name="location-add"),
    path("locations/<int:pk>/", places.location_detail, name="location-detail"),
    path("locations/<int:pk>/change/", places.location_change, name="location-change"),
    path("move/", moves.move_many, name="move"),
    path("move/undo/", moves.move_undo, name="move-undo"),
    path("parts/<int:pk>/move/", moves.part_move, name="part-move"),
]
