"""Addresses of the steps by which a list of parts is read in."""

from django.urls import path

from catalog.views import imports

urlpatterns = [
    path("parts/import/", imports.part_import, name="part-import"),
    path("parts/import/<int:pk>/", imports.part_import_preview, name="part-import-preview"),
    path("parts/import/<int:pk>/columns/", imports.part_import_columns, name="part-import-columns"),
    path("parts/import/<int:pk>/record/", imports.part_import_record, name="part-import-record"),
    path("parts/import/<int:pk>/result/", imports.part_import_result, name="part-import-result"),
    path(
        "parts/import/<int:pk>/problems.csv",
        imports.part_import_problems,
        name="part-import-problems",
    ),
]
