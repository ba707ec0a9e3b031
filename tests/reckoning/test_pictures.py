"""The smaller copies of photographs: upright, plain, private and no larger than asked."""

import io

import numpy as np
import pytest
from PIL import Image, ImageCms

from catalog.reckoning.pictures import PictureError, derive_pictures
from tests.reckoning.picture_samples import (
    fixture,
    mean_difference,
    opened,
    patterned,
    profile_with_red_and_green_exchanged,
    reference,
    saved,
    sixteen_bit_ramp,
    with_orientation,
)

ORIENTATIONS = range(1, 9)


def first_pixel(file):
    """Read the top left pixel of the copy, away from the losses of compression."""
    (copy,) = derive_pictures(file, widths=(64,))
    return opened(copy).convert("RGB").getpixel((2, 2))


def test_a_large_photograph_becomes_three_webps_and_two_jpegs():
    file = saved(patterned((2400, 1800)), "JPEG")

    copies = derive_pictures(file)

    assert [(copy.bound, copy.width, copy.height, copy.media_type) for copy in copies] == [
        (320, 320, 240, "image/webp"),
        (960, 960, 720, "image/webp"),
        (960, 960, 720, "image/jpeg"),
        (2048, 2048, 1536, "image/webp"),
        (2048, 2048, 1536, "image/jpeg"),
    ]
    for copy in copies:
        assert opened(copy).size == (copy.width, copy.height)
        assert opened(copy).get_format_mimetype() == copy.media_type
        assert opened(copy).mode == "RGB"


def test_the_bound_holds_the_longer_side_of_a_portrait():
    file = saved(patterned((900, 1200)), "PNG")

    (copy,) = derive_pictures(file, widths=(320,))

    assert (copy.width, copy.height) == (240, 320)


def test_nothing_is_enlarged():
    file = saved(patterned((500, 400)), "PNG")

    sizes = [(copy.bound, copy.width, copy.height) for copy in derive_pictures(file)]

    assert sizes == [
        (320, 320, 256),
        (960, 500, 400),
        (960, 500, 400),
        (2048, 500, 400),
        (2048, 500, 400),
    ]


def test_a_picture_of_one_pixel_keeps_its_pixel():
    file = saved(Image.new("RGB", (1, 1), (200, 30, 30)), "PNG")

    (copy,) = derive_pictures(file, widths=(320,))

    assert (copy.width, copy.height) == (1, 1)
    assert opened(copy).getpixel((0, 0)) == pytest.approx((200, 30, 30), abs=12)


def test_a_very_long_picture_keeps_at_least_one_pixel_of_height():
    file = saved(Image.new("RGB", (4000, 2), "navy"), "PNG")

    (copy,) = derive_pictures(file, widths=(320,))

    assert (copy.width, copy.height) == (320, 1)


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_every_orientation_is_turned_as_pillow_turns_it(orientation):
    name = f"orientation_{orientation}.jpg"
    expected = reference(fixture(name))
    expected.thumbnail((320, 320), Image.Resampling.LANCZOS)

    (copy,) = derive_pictures(fixture(name), widths=(320,))

    assert opened(copy).size == expected.size == (320, 240)
    assert mean_difference(opened(copy), expected) < 4


def test_all_eight_orientations_show_the_same_picture():
    copies = [
        derive_pictures(fixture(f"orientation_{orientation}.jpg"), widths=(320,))[0]
        for orientation in ORIENTATIONS
    ]

    differences = [mean_difference(opened(copy), opened(copies[0])) for copy in copies]

    assert max(differences) < 3
    flipped = opened(copies[0]).transpose(Image.Transpose.ROTATE_180)
    assert mean_difference(flipped, opened(copies[0])) > 20


@pytest.mark.parametrize("file_format", ["JPEG", "PNG", "WEBP", "TIFF"])
@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_every_format_with_a_tag_is_turned_once(file_format, orientation):
    file = saved(patterned(), file_format, exif=with_orientation(orientation))
    expected = reference(io.BytesIO(file.getvalue()))

    (copy,) = derive_pictures(file, widths=(320,))

    assert opened(copy).size == expected.size
    assert mean_difference(opened(copy), expected) < 12


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_a_heic_with_a_rotation_box_is_not_turned_twice(orientation):
    exif = with_orientation(orientation)
    # Given as bytes, the writer puts the turn in a box as well as in the tag.
    file = saved(patterned(), "HEIF", exif=exif.tobytes())
    expected = reference(saved(patterned(), "PNG", exif=exif))

    (copy,) = derive_pictures(file, widths=(320,))

    assert opened(copy).size == expected.size
    assert mean_difference(opened(copy), expected) < 12


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_a_heic_with_the_tag_alone_is_turned_by_the_tag(orientation):
    exif = with_orientation(orientation)
    # Given as an object, the writer puts the turn in the tag only.
    file = saved(patterned(), "HEIF", exif=exif)
    assert b"irot" not in file.getvalue()
    assert b"imir" not in file.getvalue()

    (copy,) = derive_pictures(file, widths=(320,))

    expected = reference(saved(patterned(), "PNG", exif=exif))
    assert opened(copy).size == expected.size
    assert mean_difference(opened(copy), expected) < 12


@pytest.mark.parametrize("orientation", [0, 9, 65535])
def test_an_orientation_that_does_not_exist_counts_as_upright(orientation):
    file = saved(patterned(), "JPEG", exif=with_orientation(orientation))

    (copy,) = derive_pictures(file, widths=(320,))

    assert (copy.width, copy.height) == (64, 48)


def test_no_copy_says_where_or_with_what_it_was_taken():
    picture = Image.open(fixture("with_gps.jpg"))
    file = saved(
        picture,
        "JPEG",
        exif=picture.getexif(),
        comment=b"behind the old mill",
        xmp=b"<x:xmpmeta>GPSLatitude</x:xmpmeta>",
    )
    assert b"Test phone" in file.getvalue()

    copies = derive_pictures(file)

    assert len(copies) == 5
    for copy in copies:
        assert dict(opened(copy).getexif()) == {}
        assert not {"exif", "xmp", "comment", "icc_profile"} & set(opened(copy).info)
        for secret in (b"Exif", b"xmpmeta", b"old mill", b"Test phone", b"GPS"):
            assert secret not in copy.data


def test_transparency_is_laid_on_white():
    clear = Image.new("RGBA", (64, 64), (255, 0, 0, 0))
    half = Image.new("RGBA", (64, 64), (255, 0, 0, 128))

    assert first_pixel(saved(clear, "PNG")) == pytest.approx((255, 255, 255), abs=3)
    assert first_pixel(saved(half, "PNG")) == pytest.approx((255, 127, 127), abs=6)


def test_a_palette_with_a_transparent_color_is_laid_on_white():
    picture = Image.new("P", (64, 64), 1)
    picture.putpalette([0, 0, 0, 10, 200, 10])

    assert first_pixel(saved(picture, "GIF")) == pytest.approx((10, 200, 10), abs=8)
    assert first_pixel(saved(picture, "GIF", transparency=1)) == pytest.approx(
        (255, 255, 255), abs=3
    )


def test_gray_and_black_and_white_pictures_keep_their_lightness():
    assert first_pixel(saved(Image.new("L", (64, 64), 90), "PNG")) == pytest.approx(
        (90,) * 3, abs=3
    )
    assert first_pixel(saved(Image.new("1", (64, 64), 1), "PNG")) == pytest.approx(
        (255,) * 3, abs=3
    )
    assert first_pixel(saved(Image.new("LA", (64, 64), (0, 0)), "PNG")) == pytest.approx(
        (255,) * 3, abs=3
    )


def test_printing_inks_are_converted_and_not_inverted():
    cyan = Image.new("CMYK", (64, 64), (255, 0, 0, 0))
    paper = Image.new("CMYK", (64, 64), (0, 0, 0, 0))

    assert first_pixel(saved(cyan, "JPEG")) == pytest.approx((0, 255, 255), abs=6)
    assert first_pixel(saved(paper, "TIFF")) == pytest.approx((255, 255, 255), abs=3)


@pytest.mark.parametrize("file_format", ["PNG", "TIFF"])
def test_sixteen_bits_are_scaled_and_not_clipped(file_format):
    (copy,) = derive_pictures(saved(sixteen_bit_ramp(), file_format), widths=(320,))

    row = np.asarray(opened(copy).convert("L"), dtype=float)[32]

    assert np.abs(row - np.arange(256)).max() < 6


def test_floating_point_samples_are_stretched_from_black_to_white():
    heights = np.tile(np.linspace(-2.5, 7.5, 256, dtype=np.float32), (64, 1))
    heights[0, 0] = np.nan

    (copy,) = derive_pictures(saved(Image.fromarray(heights), "TIFF"), widths=(320,))

    row = np.asarray(opened(copy).convert("L"), dtype=float)[32]
    assert np.abs(row - np.arange(256)).max() < 6


def test_a_color_profile_is_obeyed_and_left_out():
    red = Image.new("RGB", (64, 64), (255, 0, 0))
    file = saved(red, "PNG", icc_profile=profile_with_red_and_green_exchanged())

    assert first_pixel(file) == pytest.approx((0, 255, 0), abs=8)


def test_a_damaged_color_profile_counts_as_none():
    red = Image.new("RGB", (64, 64), (250, 10, 10))

    assert first_pixel(saved(red, "PNG", icc_profile=b"nonsense")) == pytest.approx(
        (250, 10, 10), abs=8
    )


def test_lab_pixels_become_srgb():
    lab = ImageCms.profileToProfile(
        Image.new("RGB", (64, 64), (30, 120, 200)),
        ImageCms.createProfile("sRGB"),
        ImageCms.createProfile("LAB"),
        outputMode="LAB",
    )

    assert first_pixel(saved(lab, "TIFF")) == pytest.approx((30, 120, 200), abs=10)


@pytest.mark.parametrize("file_format", ["GIF", "WEBP", "PNG", "TIFF"])
def test_of_several_frames_the_first_is_shown(file_format):
    frames = [Image.new("RGB", (64, 64), color) for color in ("red", "blue", "lime")]
    file = saved(frames[0], file_format, save_all=True, append_images=frames[1:])

    assert first_pixel(file) == pytest.approx((255, 0, 0), abs=6)


def test_the_heic_photograph_shows_what_pillow_shows():
    expected = reference(fixture("photo.heic"))
    expected.thumbnail((320, 320), Image.Resampling.LANCZOS)

    (copy,) = derive_pictures(fixture("photo.heic"), widths=(320,))

    assert mean_difference(opened(copy), expected) < 4


def test_a_file_that_breaks_off_gives_no_copies():
    whole = fixture("with_gps.jpg").getvalue()

    with pytest.raises(PictureError, match="breaks off early or is damaged"):
        derive_pictures(io.BytesIO(whole[: len(whole) // 2]))
