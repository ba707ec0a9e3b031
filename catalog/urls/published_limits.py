"""Addresses of published limits, to be taken over by a class."""

from django.urls import path

from catalog.views import published_limits

urlpatterns = [
    path(
        "classes/<int:pk>/limits/published/",
        published_limits.published_limits,
        name="published-limits",
    ),
    path(
        "classes/<int:pk>/limits/published/<slug:code>/",
        published_limits.published_limit_adopt,
        name="published-limit-adopt",
    ),
]
