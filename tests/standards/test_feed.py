"""The feed of wants against the rules of RFC 4287, The Atom Syndication Format (2005)."""

import datetime as dt
import html
import xml.etree.ElementTree as ET

import pytest

from tests.factories import WantFactory

pytestmark = pytest.mark.django_db

ATOM = "{http://www.w3.org/2005/Atom}"


@pytest.fixture
def feed(client, settings):
    settings.SITE_NAME = "Marrow Fell Tramway Group"
    when = dt.datetime(2026, 5, 1, 9, 30, tzinfo=dt.UTC)
    words = "Wider than 5 < 6 in & cast.\n<b>Heavy</b>"
    WantFactory(title="Drawhead", words=words, is_published=True, published_at=when)
    WantFactory(title="Hinge", is_published=True, published_at=when + dt.timedelta(days=1))
    return ET.fromstring(client.get("/wanted/feed/").content)  # noqa: S314


def test_feed_has_each_thing_that_it_must_have_once(feed):
    """RFC 4287 section 4.1.1: exactly one id, title and updated, at most one subtitle."""
    for name in ("id", "title", "updated", "subtitle"):
        assert len(feed.findall(f"{ATOM}{name}")) == 1


def test_feed_names_its_author_as_its_entries_do_not(feed):
    """RFC 4287 section 4.1.1: one author or more, unless each entry has its own."""
    assert feed.findtext(f"{ATOM}author/{ATOM}name") == "Marrow Fell Tramway Group"


def test_feed_links_to_itself_and_to_the_page(feed):
    """RFC 4287 section 4.1.1: a link to itself should be there; section 4.2.7 names the relations."""
    links = {link.get("rel"): link.get("href") for link in feed.findall(f"{ATOM}link")}

    assert links == {
        "self": "http://testserver/wanted/feed/",
        "alternate": "http://testserver/wanted/",
    }


def test_entries_have_each_thing_that_they_must_have_once(feed):
    """RFC 4287 section 4.1.2; section 4.2.6: an id is an IRI, and no two are the same."""
    entries = feed.findall(f"{ATOM}entry")

    for name in ("id", "title", "updated"):
        assert [len(entry.findall(f"{ATOM}{name}")) for entry in entries] == [1, 1]
    assert [entry.findtext(f"{ATOM}id") for entry in entries] == [
        "http://testserver/wanted/hinge/",
        "http://testserver/wanted/drawhead/",
    ]


def test_dates_are_moments_with_a_zone_and_the_feed_has_the_newest(feed):
    """RFC 4287 section 3.3: dates are RFC 3339 moments, with a capital T and a zone."""
    told = [entry.findtext(f"{ATOM}updated") for entry in feed.findall(f"{ATOM}entry")]

    assert [dt.datetime.fromisoformat(text).utcoffset() for text in told] == [dt.timedelta(0)] * 2
    assert feed.findtext(f"{ATOM}updated") == max(told) == "2026-05-02T09:30:00+00:00"


def test_words_are_html_in_which_nothing_typed_is_a_tag(feed):
    """RFC 4287 section 3.1.1.2: content of type html is what its text is after one unescaping."""
    summary = feed.findall(f"{ATOM}entry")[1].find(f"{ATOM}summary")

    assert summary.get("type") == "html"
    assert summary.text.startswith("<p>")
    assert "<b>" not in summary.text
    assert "<b>Heavy</b>" in html.unescape(summary.text)
