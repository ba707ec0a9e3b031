"""Addresses of printed sheets."""

from django.urls import path

from catalog.views import print_runs, prints

urlpatterns = [
    path("print/issues/", prints.printed_sheet_list, name="printed-sheet-list"),
    path("print/issues/<int:number>/", prints.printed_sheet, name="printed-sheet"),
    path("print/several/<slug:of>/", print_runs.print_several, name="print-several"),
    path("print/several/<slug:of>/<int:pk>/", print_runs.print_several, name="print-several-of"),
    path("print/<slug:kind>/<int:pk>/", prints.print_record, name="print-record"),
    path("print/<slug:kind>/<int:pk>/sheet/", prints.print_sheet, name="print-sheet"),
]
