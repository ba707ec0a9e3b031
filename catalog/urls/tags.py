"""Addresses of printing tags and labels, and the shortest ones that QR codes hold."""

from django.urls import path

from catalog.views import labels, tags

urlpatterns = [
    path("tags/", labels.tag_sheets, name="tag-sheets"),
    path("tags/proof/", labels.label_proof, name="label-proof"),
    path("locations/<int:pk>/labels/", labels.location_labels, name="location-labels"),
    # Without the last stroke, which would cost a module row in many a code.
    path("t/<str:code>", tags.tag_open, name="tag-short"),
]
