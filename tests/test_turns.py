"""Writing in turn on SQLite: one at a time, and whoever came first writes first."""

import time
from threading import Thread

import pytest

from catalog.turns import in_turn

pytestmark = pytest.mark.django_db


def test_turns_come_in_the_order_of_arrival():
    written = []

    def write(name):
        with in_turn():
            written.append(name)

    writers = [Thread(target=write, args=[number]) for number in range(8)]
    with in_turn():
        for writer in writers:
            writer.start()
            time.sleep(0.02)
        assert written == []
    for writer in writers:
        writer.join()

    assert written == list(range(8))
