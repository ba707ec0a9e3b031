"""Hand every address to the catalog."""

from django.urls import include, path

urlpatterns = [path("", include("catalog.urls"))]
