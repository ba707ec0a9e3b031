"""Addresses of photos and of their files."""

from django.urls import path

from catalog.views import photo_files, photos

urlpatterns = [
    path("photos/add/<slug:kind>/<int:pk>/", photos.photo_add, name="photo-add"),
    path("photos/<int:pk>/", photos.photo_detail, name="photo-detail"),
    path("photos/<int:pk>/<int:width>/", photo_files.photo_file, name="photo-file"),
    path("photos/<int:pk>/<int:width>.<slug:suffix>", photo_files.photo_file, name="photo-file-as"),
    path("photos/<int:pk>/original/", photo_files.photo_original, name="photo-original"),
    path("photos/<int:pk>/change/", photos.photo_change, name="photo-change"),
    path("photos/<int:pk>/main/", photos.photo_main, name="photo-main"),
    path("photos/<int:pk>/point/", photos.photo_point, name="photo-point"),
    path(
        "photos/<int:pk>/spots/<int:spot>/remove/",
        photos.photo_spot_remove,
        name="photo-spot-remove",
    ),
    path("photos/<int:pk>/withdraw/", photos.photo_withdraw, name="photo-withdraw"),
    path("photos/<int:pk>/bring-back/", photos.photo_bring_back, name="photo-bring-back"),
]
