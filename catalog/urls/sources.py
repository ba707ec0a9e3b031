"""Addresses of sources, their files, and the statements they stand behind."""

from django.urls import path

from catalog.views import citations, sources

urlpatterns = [
    path("sources/", sources.source_list, name="source-list"),
    path("sources/add/", sources.source_add, name="source-add"),
    path("sources/unsourced/", citations.unsourced_list, name="unsourced-list"),
    path("sources/<int:pk>/", sources.source_detail, name="source-detail"),
    path("sources/<int:pk>/change/", sources.source_change, name="source-change"),
    path("sources/<int:pk>/files/add/", sources.source_file_add, name="source-file-add"),
    path("sources/files/<int:pk>/", sources.source_file, name="source-file"),
    path("sources/files/<int:pk>/remove/", sources.source_file_remove, name="source-file-remove"),
    path("cite/<slug:kind>/<int:pk>/", citations.citation_add, name="citation-add"),
    path("citations/<int:pk>/remove/", citations.citation_remove, name="citation-remove"),
]
