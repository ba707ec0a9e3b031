"""The address of the home page."""

from django.urls import path

from catalog.views.home import home

urlpatterns = [path("", home, name="home")]
