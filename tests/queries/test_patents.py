"""What follows from a patent's number and dates, and which patents agree with a marking."""

import datetime as dt

import pytest

from catalog.queries.patents import part_named, patent_facts, patents_agreeing
from catalog.reckoning.patents import read_marking
from tests.factories import PartFactory, PatentFactory

pytestmark = pytest.mark.django_db


def american(number, *issued):
    return PatentFactory(country="US", number=number, issued_on=dt.date(*issued))


def test_american_patent_names_the_statute_of_its_term():
    facts = patent_facts(american("88929", 1869, 4, 13))

    assert facts.term.date == dt.date(1886, 4, 13)
    assert "Act of 2 March 1861" in facts.term.statute
    assert facts.warnings == ()


@pytest.mark.parametrize(
    ("number", "issued", "words"),
    [
        ("88929", (1870, 4, 12), "belongs to 1869"),
        ("88929", (1869, 4, 16), "was a Friday"),
        ("D1234", (1869, 4, 13), "not a patent number of figures alone"),
        ("1", (1700, 1, 5), "No US patents were granted before"),
    ],
)
def test_american_patent_that_does_not_agree_is_warned_of(number, issued, words):
    assert words in " ".join(patent_facts(american(number, *issued)).warnings)


def test_british_patent_is_told_how_it_is_numbered_and_no_american_term():
    patent = PatentFactory(country="GB", number="4321", year=1889, issued_on=dt.date(1890, 1, 1))

    facts = patent_facts(patent)

    assert facts.country == "United Kingdom"
    assert facts.numbering.startswith("British patents of 1889")
    assert (facts.term, facts.warnings) == (None, ())


def test_marking_agrees_with_recorded_patents_of_its_days_and_numbers():
    on_day = american("655838", 1900, 8, 14)
    by_number = american("821393", 1906, 5, 22)
    PatentFactory(country="XZ", number="655838", issued_on=dt.date(1900, 8, 14))

    assert patents_agreeing(read_marking("PAT'D ?UG 1? 190?")) == [on_day]
    assert patents_agreeing(read_marking("PAT. 821,39?")) == [by_number]


def test_part_is_found_by_number_or_tag():
    part = PartFactory(number="2026.4.17a", tag="K7Q2M9X")

    assert [part_named(words) for words in ("2026.4.17A ", "k7q2m9x", "7")] == [part, part, None]
