"""Addresses of vehicles."""

from django.urls import path

from catalog.views import differences, dismantling, vehicles

urlpatterns = [
    path("vehicles/", vehicles.vehicle_list, name="vehicle-list"),
    path("vehicles/add/", vehicles.vehicle_add, name="vehicle-add"),
    path("vehicles/<slug:slug>/", vehicles.vehicle_detail, name="vehicle-detail"),
    path("vehicles/<slug:slug>/change/", vehicles.vehicle_change, name="vehicle-change"),
    path("vehicles/<slug:slug>/order/", vehicles.vehicle_order, name="vehicle-order"),
    path(
        "vehicles/<slug:slug>/dismantling/",
        dismantling.vehicle_dismantling,
        name="vehicle-dismantling",
    ),
    path(
        "vehicles/<slug:slug>/dismantling/print/",
        dismantling.putting_back_print,
        name="putting-back-print",
    ),
    path(
        "vehicles/<slug:slug>/differences/",
        differences.vehicle_differences,
        name="vehicle-differences",
    ),
    path(
        "vehicles/<slug:slug>/differences/<int:pk>/remove/",
        differences.vehicle_difference_remove,
        name="vehicle-difference-remove",
    ),
    path(
        "vehicles/<slug:slug>/compare/<slug:other>/",
        differences.vehicle_compare,
        name="vehicle-compare",
    ),
]
