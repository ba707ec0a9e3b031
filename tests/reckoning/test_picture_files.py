"""What a photograph file is said to be, and the sentences for files that are refused."""

import hashlib
import io
import random
import zipfile
from datetime import datetime

import pytest
from PIL import Image, ImageFile

from catalog.reckoning.pictures import PictureError, PictureFacts, inspect_picture
from tests.reckoning.picture_samples import (
    fixture,
    patterned,
    png_bomb,
    saved,
    sixteen_bit_ramp,
    with_orientation,
)

TAKEN = "Photographs can be JPEG, PNG, WebP, HEIC, TIFF or GIF files."


def refusal(data):
    with pytest.raises(PictureError) as caught:
        inspect_picture(io.BytesIO(data))
    return str(caught.value)


def test_a_phone_photograph_is_described():
    data = fixture("with_gps.jpg").getvalue()

    facts = inspect_picture(io.BytesIO(data))

    assert facts == PictureFacts(
        format="JPEG",
        media_type="image/jpeg",
        width=1200,
        height=900,
        orientation=1,
        sha256=hashlib.sha256(data).hexdigest(),
        byte_size=len(data),
        taken_at=datetime(2026, 5, 17, 14, 22, 31),  # noqa: DTZ001 — cameras know no zone.
        has_location=True,
        is_animated=False,
        mode="RGB",
    )


@pytest.mark.parametrize("orientation", range(1, 9))
def test_the_size_is_the_upright_one(orientation):
    facts = inspect_picture(fixture(f"orientation_{orientation}.jpg"))

    assert (facts.width, facts.height, facts.orientation) == (640, 480, orientation)


@pytest.mark.parametrize(
    ("file_format", "options"),
    [("TIFF", {}), ("HEIF", {}), ("HEIF", {"as_bytes": True}), ("PNG", {}), ("WEBP", {})],
)
def test_a_sideways_picture_of_any_format_has_its_upright_size(file_format, options):
    exif = with_orientation(6)
    file = saved(patterned((64, 48)), file_format, exif=exif.tobytes() if options else exif)

    facts = inspect_picture(file)

    assert (facts.width, facts.height, facts.orientation) == (48, 64, 6)


def test_an_orientation_written_in_xmp_is_obeyed():
    xmp = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><r tiff:Orientation="8"/></x:xmpmeta>'

    facts = inspect_picture(saved(patterned(), "JPEG", xmp=xmp))

    assert (facts.width, facts.height) == (48, 64)


@pytest.mark.parametrize(
    ("file_format", "name", "media_type"),
    [
        ("JPEG", "JPEG", "image/jpeg"),
        ("MPO", "JPEG", "image/jpeg"),
        ("PNG", "PNG", "image/png"),
        ("WEBP", "WebP", "image/webp"),
        ("HEIF", "HEIC", "image/heic"),
        ("TIFF", "TIFF", "image/tiff"),
        ("GIF", "GIF", "image/gif"),
    ],
)
def test_every_format_that_is_taken_has_its_name(file_format, name, media_type):
    facts = inspect_picture(saved(patterned(), file_format))

    assert (facts.format, facts.media_type) == (name, media_type)
    assert (facts.taken_at, facts.has_location, facts.is_animated) == (None, False, False)


def test_a_second_picture_behind_a_phone_jpeg_is_no_animation():
    file = saved(patterned(), "MPO", save_all=True, append_images=[patterned()])

    facts = inspect_picture(file)

    assert (facts.format, facts.is_animated) == ("JPEG", False)


@pytest.mark.parametrize("file_format", ["GIF", "WEBP", "PNG", "TIFF"])
def test_several_frames_are_noted(file_format):
    other = Image.new("RGB", (64, 48), "blue")
    file = saved(patterned(), file_format, save_all=True, append_images=[other])

    assert inspect_picture(file).is_animated


def test_unusual_pixels_are_named():
    assert inspect_picture(saved(sixteen_bit_ramp(), "PNG")).mode == "I;16"
    assert inspect_picture(saved(patterned().convert("CMYK"), "JPEG")).mode == "CMYK"
    assert inspect_picture(saved(Image.new("L", (1, 1)), "PNG")).mode == "L"


@pytest.mark.parametrize("written", ["0000:00:00 00:00:00", "    :  :     :  :  ", "yesterday", ""])
def test_a_clock_that_was_never_set_gives_no_time(written):
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = written

    assert inspect_picture(saved(patterned(), "JPEG", exif=exif)).taken_at is None


def test_a_location_in_xmp_is_noticed():
    xmp = b'<x:xmpmeta><rdf exif:GPSLatitude="1,15N"/></x:xmpmeta>'

    assert inspect_picture(saved(patterned(), "WEBP", xmp=xmp)).has_location


@pytest.mark.filterwarnings("ignore::UserWarning")
def test_damaged_camera_notes_do_not_spoil_a_photograph():
    file = saved(patterned(), "JPEG", exif=b"Exif\0\0II*\0\xff\xff\xff\x7f rubbish")

    facts = inspect_picture(file)

    assert (facts.width, facts.taken_at, facts.has_location) == (64, None, False)


def test_a_file_that_was_read_before_is_read_from_its_start():
    file = fixture("orientation_1.jpg")
    file.read()

    assert inspect_picture(file).byte_size == 57846


def test_an_empty_file_is_refused_in_words():
    assert refusal(b"") == "The file is empty (0 bytes). Copy it from the camera or phone again."


def test_what_is_not_a_picture_is_refused_in_words():
    assert (
        refusal(b"seven journal boxes, some with brasses") == f"This file is not a picture. {TAKEN}"
    )


def test_other_kinds_of_file_are_named():
    archive = io.BytesIO()
    with zipfile.ZipFile(archive, "w") as members:
        members.writestr("list.txt", "two drawheads")

    assert refusal(b"%PDF-1.7 ...") == f"This is a PDF document, not a photograph. {TAKEN}"
    assert refusal(saved(patterned(), "BMP").getvalue()).startswith("This is a BMP picture,")
    assert refusal(saved(patterned(), "AVIF").getvalue()).startswith("This is an AVIF picture,")
    assert refusal(b"\0\0\0\x18ftypmp42\0\0\0\0").startswith("This is a video,")
    assert refusal(b"<svg xmlns='x'/>").startswith("This is a vector drawing,")
    assert refusal(archive.getvalue()).startswith("This is a ZIP archive or an office document,")


@pytest.mark.parametrize("name", ["with_gps.jpg", "photo.png", "photo.heic"])
@pytest.mark.parametrize("share", [0.02, 0.5, 0.97])
def test_a_file_that_breaks_off_is_refused_in_words(name, share):
    whole = fixture(name).getvalue()

    words = refusal(whole[: int(len(whole) * share)])

    assert words.endswith(
        "breaks off early or is damaged, so the picture cannot be read. "
        "Copy it from the camera or phone again."
    )


@pytest.mark.parametrize("name", ["with_gps.jpg", "photo.png", "photo.heic"])
def test_a_broken_file_is_refused_though_another_library_allows_it(monkeypatch, name):
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    whole = fixture(name).getvalue()

    assert "breaks off early" in refusal(whole[: len(whole) // 2])
    assert ImageFile.LOAD_TRUNCATED_IMAGES is True


@pytest.mark.parametrize(("width", "height"), [(7750, 7750), (10000, 9000), (20000, 20000)])
def test_a_bomb_is_refused_before_it_is_decoded(width, height):
    bomb = png_bomb(width, height).getvalue()
    assert len(bomb) < 60_000

    words = refusal(bomb)

    assert words.startswith("The picture has too many pixels")
    assert "at most 60 million are taken" in words


def test_the_largest_picture_that_is_taken_is_taken():
    facts = inspect_picture(png_bomb(10_000, 6_000))

    assert (facts.width, facts.height, facts.mode) == (10_000, 6_000, "1")


@pytest.mark.filterwarnings("ignore::UserWarning")
def test_chance_damage_gives_facts_or_a_refusal_and_nothing_else():
    chance = random.Random(1889)
    samples = [
        saved(patterned(), kind, exif=with_orientation(6))
        for kind in ("JPEG", "PNG", "WEBP", "TIFF", "HEIF")
    ]
    refused = 0
    for data in [bytearray(sample.getvalue()) for sample in samples for _ in range(60)]:
        for _ in range(8):
            data[chance.randrange(len(data))] = chance.randrange(256)
        try:
            assert inspect_picture(io.BytesIO(data)).byte_size == len(data)
        except PictureError:
            refused += 1

    assert 30 < refused < 300
