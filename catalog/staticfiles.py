"""Serve the style sheet as one file: a round trip for each import is slow in a shed."""

import posixpath
import re
from collections.abc import Iterator
from typing import Any

from django.core.files.base import ContentFile, File
from django.core.files.storage import Storage
from whitenoise.storage import CompressedManifestStaticFilesStorage

SHEET = "css/site.css"
IMPORT = re.compile(r'@import url\("(?P<path>[^"]+)"\) layer\((?P<layer>[a-z]+)\);')
COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
BLANK = re.compile(r"\n\s*")

StaticFile = tuple[Storage, str]


class OneSheetStorage(CompressedManifestStaticFilesStorage):  # type: ignore[misc]
    """Static files with a digest in their name, and ``site.css`` joined from its parts."""

    support_js_module_import_aggregation = True

    def post_process(
        self, paths: dict[str, StaticFile], dry_run: bool = False, **options: Any
    ) -> Iterator[Any]:
        """Hand the joined sheet on in the place of the one that imports the others."""
        if SHEET in paths:
            paths = {**paths, SHEET: (_Joined(joined_sheet(paths)), SHEET)}
        return super().post_process(paths, dry_run=dry_run, **options)  # type: ignore[no-any-return]


class _Joined(Storage):
    """A storage that holds nothing but the joined sheet."""

    def __init__(self, text: str) -> None:
        self.text = text

    def _open(self, name: str, mode: str = "rb") -> "File[bytes]":
        return ContentFile(self.text.encode(), name=name)


def joined_sheet(paths: dict[str, StaticFile]) -> str:
    """Return ``site.css`` with each ``@import … layer()`` replaced by the imported text."""

    def imported(match: re.Match[str]) -> str:
        name = posixpath.join(posixpath.dirname(SHEET), match["path"])
        return f"@layer {match['layer']} {{\n{_read(paths[name])}\n}}"

    return _without_blanks(IMPORT.sub(imported, _read(paths[SHEET])))


def _read(static_file: StaticFile) -> str:
    storage, path = static_file
    with storage.open(path) as opened:
        return bytes(opened.read()).decode()


def _without_blanks(css: str) -> str:
    return BLANK.sub("\n", COMMENT.sub("", css)).strip() + "\n"
