"""Addresses of photos that come many at a time."""

from django.urls import path

from catalog.views import batches

urlpatterns = [
    path("photos/batch/", batches.photo_batch, name="photo-batch"),
    path("photos/batch/add/", batches.photo_batch_add, name="photo-batch-add"),
    path("photos/drop/<slug:kind>/<int:pk>/", batches.photo_drop, name="photo-drop"),
]
