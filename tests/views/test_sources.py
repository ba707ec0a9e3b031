"""Sources and their files on the screen."""

import pytest
from django.core.files.base import ContentFile
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from catalog.models import Source, SourceFile
from catalog.operations.sources import add_source_file
from catalog.queries.citations import address_of
from tests.factories import CitationFactory, PartyFactory, SourceFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def as_curator_too(curator):
    client = Client()
    client.force_login(curator)
    return client


@pytest.fixture
def letter(member):
    source = SourceFactory(title="Sale letter")
    return add_source_file(source, ContentFile(b"<script>", "letter.html"), by=member)


def test_source_is_added_with_its_holder_by_name(signed_in):
    typed = {"title": "Inventory", "kind": "register", "holder": "Tolvane Library"}

    answer = signed_in.post(reverse("source-add"), {**typed, "date_text": "March 1930"})

    source = Source.objects.get()
    assert answer.headers["Location"] == source.get_absolute_url()
    assert (source.holder.name, source.date_edtf) == ("Tolvane Library", "1930-03")


def test_volunteer_does_not_publish(signed_in, as_curator_too):
    typed = {"title": "Inventory", "kind": "register", "is_published": "on"}

    signed_in.post(reverse("source-add"), typed)
    as_curator_too.post(reverse("source-add"), {**typed, "title": "Drawing"})

    published = Source.objects.filter(is_published=True)
    assert [source.title for source in published] == ["Drawing"]


def test_list_is_filtered_by_kind_and_words(signed_in):
    SourceFactory(title="Works drawing", kind="drawing")
    SourceFactory(title="Works register", kind="register")

    page = signed_in.get(reverse("source-list"), {"kind": "drawing", "words": "works"})

    assert [source.title for source in page.context["page"]] == ["Works drawing"]


def test_detail_lists_what_cites_it(signed_in):
    citation = CitationFactory(says="one engine", locator="p. 4")

    page = signed_in.get(citation.source.get_absolute_url()).content.decode()

    assert address_of(citation.event) in page
    assert "p. 4" in page
    assert "one engine" in page


def test_oral_account_without_consent_says_so(signed_in):
    source = SourceFactory(kind="oral", speaker=PartyFactory(name="Ada Skarn"))

    page = signed_in.get(source.get_absolute_url()).content.decode()

    assert "not given yet; ask before it is used" in page


def test_file_is_kept_and_handed_out_as_a_download_only(signed_in):
    source = SourceFactory()
    file = SimpleUploadedFile("plan.pdf", b"%PDF-")

    signed_in.post(reverse("source-file-add", args=[source.pk]), {"file": file})
    answer = signed_in.get(reverse("source-file", args=[SourceFile.objects.get().pk]))

    assert b"".join(answer.streaming_content) == b"%PDF-"
    assert answer.headers["Content-Disposition"] == 'attachment; filename="plan.pdf"'
    assert answer.headers["Content-Type"] == "application/octet-stream"


def test_history_of_a_source_tells_of_its_files(signed_in, letter):
    page = signed_in.get(reverse("record-history", args=["source", letter.source.pk]))

    assert "file added" in page.content.decode()


def test_empty_file_is_refused_in_words(signed_in):
    source = SourceFactory()
    file = SimpleUploadedFile("plan.pdf", b"")

    page = signed_in.post(reverse("source-file-add", args=[source.pk]), {"file": file})

    assert "“plan.pdf” is empty: nothing was kept." in page.content.decode()


def test_visitor_gets_neither_source_nor_file(as_visitor, letter):
    for address in (letter.source.get_absolute_url(), reverse("source-file", args=[letter.pk])):
        assert as_visitor.get(address).status_code == 403


def test_only_a_curator_takes_a_file_off(client, member, curator, letter):
    address = reverse("source-file-remove", args=[letter.pk])
    client.force_login(member)
    assert client.post(address).status_code == 403

    client.force_login(curator)
    client.post(address)

    assert not SourceFile.objects.exists()


def test_list_takes_the_same_queries_for_one_and_three(signed_in, count_queries):
    SourceFactory(holder=PartyFactory())
    one = count_queries(signed_in, reverse("source-list"))
    SourceFactory.create_batch(2, holder=PartyFactory())

    assert count_queries(signed_in, reverse("source-list")) == one


def test_detail_takes_the_same_queries_for_one_and_three(signed_in, count_queries, letter, member):
    CitationFactory(source=letter.source)
    one = count_queries(signed_in, letter.source.get_absolute_url())
    for number in range(2):
        CitationFactory(source=letter.source)
        add_source_file(letter.source, ContentFile(b"%d" % number, "more.txt"), by=member)

    assert count_queries(signed_in, letter.source.get_absolute_url()) == one
