"""The command that clears away photographs whose record was never written."""

import io
import os
import time

import pytest
from django.core.files.storage import default_storage
from django.core.management import call_command

from catalog.models.photos import derived_name
from catalog.operations.photos import add_photo, withdraw_photo
from catalog.operations.picture_files import keep_picture
from tests.factories import PartFactory
from tests.samples import PICTURES

pytestmark = pytest.mark.django_db
SAMPLE = PICTURES / "orientation_6.jpg"


@pytest.fixture(autouse=True)
def media(settings, tmp_path):
    settings.MEDIA_ROOT = str(tmp_path)


def kept(days):
    """Keep a photograph as a refused form does, so many days ago."""
    with SAMPLE.open("rb") as file:
        picture = keep_picture(file)
    age(picture.original, days)
    return picture


def age(name, days):
    moment = time.time() - days * 24 * 3600
    os.utime(default_storage.path(name), (moment, moment))


def cleared(*options):
    out = io.StringIO()
    call_command("clear_stray_pictures", *options, stdout=out)
    return out.getvalue()


def test_clear_removes_a_stray_photograph_with_its_copies():
    picture = kept(days=2)
    copy = derived_name(picture.facts.sha256, 320, "webp")
    was_there = default_storage.exists(copy)

    said = cleared()

    assert said == f"{picture.original}\nStray photographs removed: 1.\n"
    assert was_there
    assert [default_storage.exists(name) for name in (picture.original, copy)] == [False, False]


def test_clear_dry_run_only_says_what_it_would_remove():
    picture = kept(days=2)

    said = cleared("--dry-run")

    assert said == f"{picture.original}\nStray photographs would be removed: 1.\n"
    assert default_storage.exists(picture.original)


def test_clear_leaves_what_was_kept_within_a_day():
    picture = kept(days=0.9)

    assert cleared() == "Stray photographs removed: 0.\n"
    assert default_storage.exists(picture.original)


def test_clear_leaves_the_photograph_of_a_record_even_when_withdrawn(curator):
    with SAMPLE.open("rb") as file:
        photo = add_photo(file, part=PartFactory(), by=curator)
    withdraw_photo(photo, by=curator, reason="blurred")
    age(photo.original.name, days=30)

    assert cleared() == "Stray photographs removed: 0.\n"
    assert default_storage.exists(photo.original.name)


def test_clear_leaves_what_only_the_history_names(curator):
    with SAMPLE.open("rb") as file:
        photo = add_photo(file, part=PartFactory(), by=curator)
    name = photo.original.name
    photo.delete()
    age(name, days=30)

    assert cleared() == "Stray photographs removed: 0.\n"
    assert default_storage.exists(name)
