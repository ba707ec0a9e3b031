"""Addresses that read back what is being typed."""

from django.urls import path

from catalog.views import echo

urlpatterns = [
    path("echo/length/", echo.echo_length, name="echo-length"),
    path("echo/date/", echo.echo_date, name="echo-date"),
]
