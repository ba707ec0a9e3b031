"""Addresses of the bench queue."""

from django.urls import path, re_path

from catalog.views import bench

urlpatterns = [
    path("bench/", bench.bench, name="bench"),
    path("bench/<int:pk>/", bench.bench_part, name="bench-part"),
    path("bench/<int:pk>/same/", bench.bench_same, name="bench-same"),
    path("bench/<int:pk>/apart/", bench.bench_apart, name="bench-apart"),
    re_path(
        r"^bench/(?P<pk>\d+)/undo/(?P<what>step|same|apart)/$",
        bench.bench_undo,
        name="bench-undo",
    ),
]
