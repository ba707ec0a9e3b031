"""Writing in turn on SQLite: one at a time, and whoever came first writes first."""

import time
from threading import Thread

from catalog.turns import in_turn_at


def test_turns_come_in_the_order_of_arrival(tmp_path):
    place = tmp_path / "turn"
    written = []

    def write(name):
        with in_turn_at(place):
            written.append(name)

    writers = [Thread(target=write, args=[number]) for number in range(8)]
    with in_turn_at(place):
        for writer in writers:
            writer.start()
            time.sleep(0.02)
        assert written == []
    for writer in writers:
        writer.join()

    assert written == list(range(8))
