"""Addresses of what is needed, and of what is done about it."""

from django.urls import path

from catalog.views import fittings, needs, one_more, over_time

urlpatterns = [
    path("needed/", needs.needs, name="needs"),
    path("best-use/", needs.best_use, name="best-use"),
    path("needed/one-more/", one_more.one_more, name="one-more"),
    path("needed/over-time/", over_time.over_time, name="over-time"),
    path("needed/open/", needs.needs_open, name="needs-open"),
    path("needed/print/", needs.needs_print_all, name="needs-print-all"),
    path("needed/<slug:slug>/", needs.vehicle_needs, name="vehicle-needs"),
    path("needed/<slug:slug>/print/", needs.needs_print, name="needs-print"),
    path("needed/<slug:slug>/<int:pk>/", needs.position_detail, name="position-detail"),
    path("needed/<slug:slug>/<int:pk>/put/", fittings.position_put, name="position-put"),
    path(
        "needed/<slug:slug>/<int:pk>/trial/<int:part_pk>/",
        fittings.trial_record,
        name="trial-record",
    ),
    path("fittings/<int:pk>/release/", fittings.fitting_release, name="fitting-release"),
    path("fittings/<int:pk>/remove/", fittings.fitting_remove, name="fitting-remove"),
    path("removals/<int:pk>/put-back/", fittings.removal_put_back, name="removal-put-back"),
]
