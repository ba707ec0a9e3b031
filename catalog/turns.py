"""Writing in turn: whoever came first writes first, however many phones send at once.

SQLite lets one write at a time and makes the others ask again and again, at longer and longer
intervals; under twenty phones that left one in twenty waiting for two seconds. The kernel's
file locks queue in order of arrival, across threads and processes.
"""

import fcntl
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from django.db import OperationalError, connection


class BusyError(Exception):
    """Somebody else is writing, for longer than it was worth waiting."""


@contextmanager
def in_turn() -> Iterator[None]:
    """Wait until it is one's turn to write; other databases keep their own order."""
    if connection.vendor != "sqlite" or connection.is_in_memory_db():  # type: ignore[attr-defined]
        yield
        return
    with in_turn_at(Path(f"{connection.settings_dict['NAME']}-turn")):
        yield


@contextmanager
def impatient(milliseconds: int = 250) -> Iterator[None]:
    """Wait no longer than this to write, for what had better not be written than wait for.

    SQLite lets one write at a time, and reading in a long list takes it for many seconds; whoever
    cannot write by then gets ``BusyError``. Other databases hold single rows only.
    """
    if connection.vendor != "sqlite":
        yield
        return
    usual = int(connection.settings_dict["OPTIONS"].get("timeout", 5) * 1000)
    with connection.cursor() as cursor:
        cursor.execute(f"PRAGMA busy_timeout = {milliseconds:d}")
        try:
            yield
        except OperationalError as fault:
            if "locked" not in str(fault):
                raise
            raise BusyError("Somebody else writes for longer than that.") from fault
        finally:
            cursor.execute(f"PRAGMA busy_timeout = {usual:d}")


@contextmanager
def in_turn_at(place: Path) -> Iterator[None]:
    """Wait until it is one's turn among all who queue at the file ``place``."""
    with place.open("w") as turn:
        fcntl.flock(turn, fcntl.LOCK_EX)
        yield
