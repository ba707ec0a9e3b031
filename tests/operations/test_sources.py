"""Sources, and the files kept with them."""

import hashlib

import pytest
from django.core.exceptions import ValidationError
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage

from catalog.models import Source
from catalog.operations.sources import (
    add_source_file,
    change_source,
    record_source,
    remove_source_file,
)
from tests.factories import PartyFactory, SourceFactory

pytestmark = pytest.mark.django_db


def content(kept):
    with default_storage.open(kept.file.name) as file:
        return file.read()


def test_source_needs_a_title_only(member):
    assert record_source({"title": "Works drawing"}, by=member).kind == Source.Kind.OTHER


def test_source_takes_names_of_holder_and_speaker(member):
    ada = PartyFactory(name="Ada Skarn")
    told = {
        "title": "What Ada told",
        "kind": "oral",
        "speaker": "Ada Skarn",
        "holder": "Skarn Library",
    }

    source = record_source({**told, "date_text": "about 1987"}, by=member)

    assert source.speaker == ada
    assert (source.holder.name, source.holder.kind) == ("Skarn Library", "organization")
    assert source.date_edtf == "1987~"


def test_source_changes_its_holder_to_nobody(member):
    source = SourceFactory(holder=PartyFactory())

    change_source(source, {"holder": ""}, by=member)

    source.refresh_from_db()
    assert source.holder is None


def test_file_is_kept_byte_for_byte(member):
    source = SourceFactory()

    kept = add_source_file(source, ContentFile(b"ore book", "inventory 1930.PDF"), by=member)

    assert kept.name == "inventory 1930.PDF"
    assert kept.sha256 == hashlib.sha256(b"ore book").hexdigest()
    assert content(kept) == b"ore book"


def test_same_file_twice_is_refused_under_whatever_name(member):
    source = SourceFactory()
    add_source_file(source, ContentFile(b"the letter", "letter.pdf"), by=member)

    with pytest.raises(ValidationError, match=r"already kept with the source, as “letter\.pdf”"):
        add_source_file(source, ContentFile(b"the letter", "other.pdf"), by=member)


def test_different_files_of_one_name_do_not_meet(member):
    first = add_source_file(SourceFactory(), ContentFile(b"one", "scan.pdf"), by=member)
    second = add_source_file(SourceFactory(), ContentFile(b"two", "scan.pdf"), by=member)

    assert content(first) == b"one"
    assert content(second) == b"two"


def test_empty_file_is_refused(member):
    with pytest.raises(ValidationError, match=r"“scan\.pdf” is empty"):
        add_source_file(SourceFactory(), ContentFile(b"", "scan.pdf"), by=member)


def test_removed_file_may_be_kept_again(curator):
    source = SourceFactory()
    kept = add_source_file(source, ContentFile(b"a plan", "plan.pdf"), by=curator)

    remove_source_file(kept, by=curator)

    assert (
        add_source_file(source, ContentFile(b"a plan", "plan.pdf"), by=curator).name == "plan.pdf"
    )
