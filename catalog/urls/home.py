"""The addresses of the home page, and of what changed."""

from django.urls import path

from catalog.views.changes import changes
from catalog.views.home import home

urlpatterns = [
    path("", home, name="home"),
    path("changes/", changes, name="changes"),
]
