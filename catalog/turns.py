"""Writing in turn: whoever came first writes first, however many phones send at once.

SQLite lets one write at a time and makes the others ask again and again, at longer and longer
intervals; under twenty phones that left one in twenty waiting for two seconds. The kernel's
file locks queue in order of arrival, across threads and processes.
"""

import fcntl
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from django.db import connection


@contextmanager
def in_turn() -> Iterator[None]:
    """Wait until it is one's turn to write; other databases keep their own order."""
    if connection.vendor != "sqlite" or connection.is_in_memory_db():  # type: ignore[attr-defined]
        yield
        return
    with in_turn_at(Path(f"{connection.settings_dict['NAME']}-turn")):
        yield


@contextmanager
def in_turn_at(place: Path) -> Iterator[None]:
    """Wait until it is one's turn among all who queue at the file ``place``."""
    with place.open("w") as turn:
        fcntl.flock(turn, fcntl.LOCK_EX)
        yield
