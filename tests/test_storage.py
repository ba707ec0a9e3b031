"""The store shows a file only when it is whole."""

import pytest
from django.core.files.base import ContentFile

from catalog.storage import WholeFileStorage


class BreaksOff(ContentFile):
    def chunks(self, chunk_size=None):
        yield b"half"
        raise OSError("the connection broke off")


def test_a_file_that_breaks_off_leaves_nothing(tmp_path):
    with pytest.raises(OSError, match="broke off"):
        WholeFileStorage(location=tmp_path).save("a/photo.jpg", BreaksOff(b"half"))

    assert list((tmp_path / "a").iterdir()) == []


def test_a_file_saved_again_under_its_name_stays_one(tmp_path):
    store = WholeFileStorage(location=tmp_path)

    names = [store.save("a/photo.jpg", ContentFile(b"same")) for _ in range(2)]

    assert names == ["a/photo.jpg", "a/photo.jpg"]
    assert (tmp_path / "a" / "photo.jpg").read_bytes() == b"same"
