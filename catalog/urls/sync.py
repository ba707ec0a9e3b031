"""Addresses of what a phone keeps and sends: the worker, the pages it keeps, the queue's way in."""

from django.urls import path

from catalog.views import sync, worker

urlpatterns = [
    path("sw.js", worker.script, name="worker"),
    path("site.webmanifest", worker.manifest, name="manifest"),
    path("take-in/phone/", worker.take_in_page, name="take-in-phone"),
    path("move/phone/", worker.move_page, name="move-phone"),
    path("sync/moves/<uuid:move_id>/", sync.move, name="sync-move"),
    path("sync/session/", sync.session, name="sync-session"),
    path("sync/reference/", sync.reference, name="sync-reference"),
    path("sync/parts/<uuid:piece_id>/", sync.piece, name="sync-piece"),
    path("sync/parts/<uuid:piece_id>/photos/<uuid:photo_id>/", sync.photo, name="sync-photo"),
]
