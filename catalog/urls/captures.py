"""Addresses of taking in, and the short ones printed on tags."""

from django.urls import path

from catalog.views import captures, tags

urlpatterns = [
    path("take-in/", captures.piece_take_in, name="take-in"),
    path("take-in/<int:pk>/undo/", captures.capture_undo, name="capture-undo"),
    path("t/", tags.tag_find, name="tag-find"),
    path("t/<str:code>/", tags.tag_open, name="tag-open"),
]
