"""Addresses of patents, their figures and the reader of worn markings."""

from django.urls import path

from catalog.views import likenesses, patent_figures, patents

urlpatterns = [
    path("patents/", patents.patent_list, name="patent-list"),
    path("patents/add/", patents.patent_add, name="patent-add"),
    path("patents/reader/", patents.patent_reader, name="patent-reader"),
    path("patents/<int:pk>/", patents.patent_detail, name="patent-detail"),
    path("patents/<int:pk>/change/", patents.patent_change, name="patent-change"),
    path("patents/<int:pk>/figures/add/", patent_figures.figure_add, name="patent-figure-add"),
    path("patents/figures/<int:pk>/", patent_figures.figure_detail, name="patent-figure"),
    path(
        "patents/figures/<int:pk>/remove/",
        patent_figures.figure_remove,
        name="patent-figure-remove",
    ),
    path(
        "patents/figures/<int:pk>/characters/add/",
        patent_figures.character_add,
        name="character-add",
    ),
    path(
        "patents/characters/<int:pk>/remove/",
        patent_figures.character_remove,
        name="character-remove",
    ),
    path(
        "patents/figures/<int:pk>/likenesses/add/",
        patent_figures.likeness_add,
        name="likeness-add",
    ),
    path("parts/<int:pk>/likenesses/add/", likenesses.part_likeness_add, name="part-likeness-add"),
    path("patents/likenesses/<int:pk>/", likenesses.likeness_detail, name="likeness-detail"),
    path(
        "patents/likenesses/<int:pk>/remove/",
        patent_figures.likeness_remove,
        name="likeness-remove",
    ),
]
