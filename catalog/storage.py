"""Where photos are kept: a file appears under its name only when it is whole."""

import os
from pathlib import Path
from tempfile import NamedTemporaryFile

from django.core.files import File
from django.core.files.storage import FileSystemStorage


class WholeFileStorage(FileSystemStorage):
    """A folder in which no reader ever meets half a file, and a name means one content."""

    def get_available_name(self, name: str, max_length: int | None = None) -> str:
        """Keep the name: whoever names files after their content may write them twice."""
        return name

    def _save(self, name: str, content: File) -> str:  # type: ignore[type-arg]
        place = Path(self.path(name))
        place.parent.mkdir(parents=True, exist_ok=True)
        with NamedTemporaryFile(dir=place.parent, suffix=".part", delete=False) as part:
            unfinished = Path(part.name)
            try:
                for chunk in content.chunks():
                    part.write(chunk)
                part.flush()
                # A power cut in the shed must not leave an empty file under a good name.
                os.fsync(part.fileno())
                unfinished.replace(place)
            finally:
                unfinished.unlink(missing_ok=True)
        return name
