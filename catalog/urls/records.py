"""Addresses that every kind of record has."""

from django.urls import path

from catalog.views import publication, records

urlpatterns = [
    path("history/<slug:kind>/<int:pk>/", records.record_history, name="record-history"),
    path(
        "history/<slug:kind>/<int:pk>/<int:version>/restore/",
        records.record_restore,
        name="record-restore",
    ),
    path("withdraw/<slug:kind>/<int:pk>/", records.record_withdraw, name="record-withdraw"),
    path("publish/<slug:kind>/<int:pk>/", publication.record_publish, name="record-publish"),
    path("bring-back/<slug:kind>/<int:pk>/", records.record_bring_back, name="record-bring-back"),
]
