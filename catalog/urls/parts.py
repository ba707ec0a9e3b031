"""Addresses of parts, their marks, measurements and identifications."""

from django.urls import path

from catalog.views import identifications, measurements, part_groups, part_notes, parts

urlpatterns = [
    path("parts/", parts.part_list, name="part-list"),
    path("parts/narrow/", parts.part_narrow, name="part-narrow"),
    path("parts/together/", part_groups.part_together, name="part-together"),
    path(
        "identifications/take-back/",
        part_groups.identifications_take_back,
        name="identifications-take-back",
    ),
    path("parts/<int:pk>/", parts.part_detail, name="part-detail"),
    path("parts/<int:pk>/change/", parts.part_change, name="part-change"),
    path("parts/<int:pk>/split/", parts.part_split, name="part-split"),
    path("parts/<int:pk>/identify/", identifications.part_identify, name="part-identify"),
    path("parts/<int:pk>/marks/add/", part_notes.part_mark_add, name="part-mark-add"),
    path("parts/<int:pk>/measure/", measurements.part_measure, name="part-measure"),
    path(
        "measurements/<int:pk>/take-back/",
        measurements.measurement_take_back,
        name="measurement-take-back",
    ),
    path("marks/<int:pk>/change/", part_notes.part_mark_change, name="part-mark-change"),
    path("marks/<int:pk>/remove/", part_notes.part_mark_remove, name="part-mark-remove"),
    path(
        "identifications/<int:pk>/opinion/",
        identifications.identification_opinion,
        name="identification-opinion",
    ),
    path(
        "identifications/<int:pk>/take-back/",
        identifications.identification_take_back,
        name="identification-take-back",
    ),
    path("n/<str:number>/", parts.part_numbered, name="part-numbered"),
]
