"""Whoever is no member finds nothing private on any page, paper or feed of the demonstration."""

import html
from io import BytesIO

import pytest
from django.test import Client
from pypdf import PdfReader

from catalog.models import (
    Accession,
    Answer,
    Component,
    Fitting,
    Identification,
    Location,
    Measurement,
    Member,
    Move,
    Opinion,
    Part,
    Party,
    Photo,
    Plan,
    Removal,
    Source,
    StatedLine,
    Trial,
    Vehicle,
    VehicleClass,
)
from tests.crawling import crawl
from tests.factories import AnswerFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("demonstration")]

# What nobody outside may read: of each model the rows, and their columns.
PRIVATE = [
    (Member.objects, ("first_name", "last_name", "email")),
    (Party.objects, ("email", "phone", "address", "notes")),
    (Party.objects.filter(is_name_public=False), ("name", "known_as")),
    (Location.objects, ("path", "notes", "tag")),
    (Location.objects.filter(parent__isnull=False), ("name",)),
    (Accession.objects, ("summary", "terms", "notes")),
    (StatedLine.objects, ("text",)),
    (Part.objects, ("remarks", "description", "tag")),
    (Part.objects.filter(is_published=False), ("number", "condition", "defect")),
    (Measurement.objects, ("note",)),
    (Identification.objects, ("reasons",)),
    (Opinion.objects, ("reasons",)),
    (Fitting.objects, ("note",)),
    (Trial.objects, ("what_bound",)),
    (Removal.objects, ("note", "orientation", "shims", "fastenings")),
    (Move.objects, ("note",)),
    (Source.objects, ("notes", "original_place", "recorder")),
    (Source.objects.filter(is_published=False), ("title", "reference_number")),
    (Vehicle.objects, ("notes",)),
    (VehicleClass.objects, ("notes",)),
    (Photo.objects, ("original_name",)),
    (Photo.objects.filter(is_published=False), ("caption",)),
    (Plan.objects, ("name",)),
    (Answer.objects, ("name", "contact", "words")),
]
# Shorter ones are words such as “none”, which mean something else elsewhere.
LEAST_LENGTH = 5


def private_values():
    """Return each private value of the record with where it stands.

    What a piece is called, when that is but the name of its component, is no secret.
    """
    common = {name.casefold() for name in Component.objects.values_list("name", flat=True)}
    found = {}
    for rows, columns in PRIVATE:
        for column in columns:
            for value in rows.values_list(column, flat=True):
                if value and len(value) >= LEAST_LENGTH and value.casefold() not in common:
                    found[" ".join(value.split())] = f"{rows.model.__name__}.{column}"
    return found


def words_of(answer):
    """Return what can be read in an answer: a page, a feed, or a sheet of paper."""
    kind = answer.headers["Content-Type"].partition(";")[0]
    if kind == "application/pdf":
        pages = PdfReader(BytesIO(answer.content)).pages
        return " ".join(" ".join(page.extract_text() for page in pages).split())
    if answer.streaming or kind.startswith("image/"):
        return ""
    return " ".join(html.unescape(answer.content.decode()).split())


def leaks(client, private):
    """Return where a private value can be read, following every link from the first page."""
    found = []

    def read(address, answer):
        words = words_of(answer)
        found.extend(
            f"{address}: {where} “{value}”" for value, where in private.items() if value in words
        )

    seen = crawl(client, most=6, read=read)
    return found, set(seen)


def test_whoever_is_no_member_reads_nothing_private():
    AnswerFactory(name="Ottoline Fennimore", contact="01999 555 0199", words="Behind our chapel.")
    private = private_values()
    as_visitor = Client()
    as_visitor.force_login(Member.objects.get(username="visitor"))

    (outside, seen), (inside, _) = leaks(Client(), private), leaks(as_visitor, private)

    assert outside + inside == []
    assert len(private) > 200
    assert {"wanted-detail", "wanted-print", "wanted-feed", "vehicle-detail", "print-sheet"} <= seen
