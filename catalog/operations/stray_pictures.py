"""Clearing away photographs that were kept while the record which was to show them was refused."""

import datetime as dt
from collections.abc import Iterator
from pathlib import PurePath

from django.core.files.storage import default_storage

from catalog.models import Photo
from catalog.models.photos import derived_folder

# A form that was refused may still be open, with its photograph waiting to be sent again.
LEAST_AGE = dt.timedelta(days=1)


def stray_pictures(*, now: dt.datetime) -> list[str]:
    """Return the originals older than a day that no photo names, nor the history of one."""
    strays = []
    for name in _originals():
        is_old = now - default_storage.get_modified_time(name) > LEAST_AGE
        if is_old and not _is_named(name):
            strays.append(name)
    return strays


def clear_stray_pictures(*, now: dt.datetime) -> list[str]:
    """Remove stray photographs with their copies, and return the names of their originals."""
    strays = stray_pictures(now=now)
    for name in strays:
        # The original goes first: where it lies, all its copies are known to lie.
        default_storage.delete(name)
        folder = derived_folder(PurePath(name).stem)
        for copy in _files(folder):
            default_storage.delete(copy)
        if default_storage.exists(folder):
            default_storage.delete(folder)
    return strays


def _is_named(name: str) -> bool:
    """Look for the content, which one file has, however it was called."""
    digest = PurePath(name).stem
    former = Photo.history.filter(sha256=digest)
    return Photo.objects.filter(sha256=digest).exists() or former.exists()


def _originals() -> Iterator[str]:
    if default_storage.exists("originals"):
        for folder in sorted(default_storage.listdir("originals")[0]):
            yield from _files(f"originals/{folder}")


def _files(folder: str) -> list[str]:
    if not default_storage.exists(folder):
        return []
    return [f"{folder}/{name}" for name in sorted(default_storage.listdir(folder)[1])]
