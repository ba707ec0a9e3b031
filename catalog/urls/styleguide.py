"""Where builders find the building blocks."""

from django.urls import path

from catalog.views.styleguide import styleguide

urlpatterns = [path("styleguide/", styleguide, name="styleguide")]
