"""Photographs for tests, as a browser sends them."""

import io

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from tests.project_files import ROOT

PICTURES = ROOT / "fixtures" / "pictures"


def picture(color="teal", size=(64, 48), name="casting.jpg"):
    """Make a small photograph of one color: another color is another photograph."""
    file = io.BytesIO()
    Image.new("RGB", size, color).save(file, "JPEG")
    return uploaded(file, name)


def uploaded(file, name):
    return SimpleUploadedFile(name, file.getvalue(), "image/jpeg")


def fixture_picture(name):
    return SimpleUploadedFile(name, (PICTURES / name).read_bytes(), "image/jpeg")
