"""Addresses of lists as spreadsheets."""

from django.urls import path

from catalog.views import spreadsheets

urlpatterns = [
    path("parts/list.csv", spreadsheets.part_spreadsheet, name="part-spreadsheet"),
    path("needed/list.csv", spreadsheets.needs_spreadsheet, name="needs-spreadsheet"),
    path("plans/<int:pk>/list.csv", spreadsheets.plan_spreadsheet, name="plan-spreadsheet"),
]
