"""Addresses of components and of what belongs to them."""

from django.urls import path

from catalog.views import characteristics, components

urlpatterns = [
    path("components/", components.component_list, name="component-list"),
    path("components/add/", components.component_add, name="component-add"),
    path("components/<slug:slug>/", components.component_detail, name="component-detail"),
    path("components/<slug:slug>/sizes/", components.component_sizes, name="component-sizes"),
    path("components/<int:pk>/change/", components.component_change, name="component-change"),
    path(
        "components/<int:pk>/characteristics/add/",
        characteristics.characteristic_add,
        name="characteristic-add",
    ),
    path(
        "characteristics/<int:pk>/change/",
        characteristics.characteristic_change,
        name="characteristic-change",
    ),
    path(
        "characteristics/<int:pk>/remove/",
        characteristics.characteristic_remove,
        name="characteristic-remove",
    ),
    path(
        "components/<int:pk>/mating-rules/add/",
        characteristics.mating_rule_add,
        name="mating-rule-add",
    ),
    path(
        "mating-rules/<int:pk>/change/",
        characteristics.mating_rule_change,
        name="mating-rule-change",
    ),
    path(
        "mating-rules/<int:pk>/remove/",
        characteristics.mating_rule_remove,
        name="mating-rule-remove",
    ),
    path("components/<int:pk>/marks/add/", characteristics.known_mark_add, name="known-mark-add"),
    path(
        "known-marks/<int:pk>/change/", characteristics.known_mark_change, name="known-mark-change"
    ),
    path(
        "known-marks/<int:pk>/remove/", characteristics.known_mark_remove, name="known-mark-remove"
    ),
]
