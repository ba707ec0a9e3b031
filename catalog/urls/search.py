"""Where anything is found."""

from django.urls import path

from catalog.views import search

urlpatterns = [path("find/", search.find, name="search")]
