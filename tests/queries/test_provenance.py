"""Where things came from, for members and for visitors."""

import datetime as dt

import pytest
from django.utils import timezone

from catalog.models import Party
from catalog.operations.citing import Cited
from catalog.operations.provenance import record_event
from catalog.queries.provenance import provenance_of
from tests.factories import (
    PartFactory,
    PartyFactory,
    RemovalFactory,
    SourceFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def tell(curator):
    def told(record, kind, when="", source=None, **values):
        link = {type(record).__name__.lower(): record}
        cited: Cited = {"source": source}
        told = {"kind": kind, "date_text": when, **values}
        return record_event(**link, values=told, cited=cited, by=curator)

    return told


@pytest.fixture
def kestrel(tell):
    engine = VehicleFactory(label="Kestrel")
    inventory = SourceFactory(title="Smelt-mill inventory")
    letter = SourceFactory(title="Letter")
    tell(engine, "built", "1899", to_party="Marrow Fell Tramway")
    tell(engine, "listed", "March 1930", inventory, to_party="Marrow Fell Tramway")
    tell(
        engine,
        "sold",
        "spring 1929",
        letter,
        from_party="Marrow Fell Tramway",
        to_party="Orrin Contractors",
    )
    return engine


def test_contradiction_is_told_with_the_sources_of_its_statements(kestrel):
    (statements,) = provenance_of(kestrel).contradictions

    told = " / ".join(statement.words for statement in statements)
    assert "Smelt-mill inventory" in told
    assert "Letter" in told


def test_each_statement_of_a_contradiction_leads_to_the_events_that_it_speaks_of(kestrel):
    (statements,) = provenance_of(kestrel).contradictions

    events = {tuple(one.title.split()[0] for one in told.events) for told in statements}
    assert events == {("listed",), ("sold",), ("listed", "sold")}


def test_line_is_punctuated_with_numbered_notes(kestrel):
    found = provenance_of(kestrel)

    assert [(one.words, one.mark, one.notes) for one in found.entries] == [
        ("Marrow Fell Tramway, new 1899", ";", (1, 2)),
        ("Orrin Contractors, bought spring 1929", ".", (2,)),
    ]
    assert found.notes == ("Smelt-mill inventory", "Letter")


def test_gap_is_named_with_its_length_and_what_would_close_it(tell):
    engine = VehicleFactory()
    tell(engine, "sold", "1938", from_party="Mill", to_party="Orrin Contractors")
    tell(engine, "given", "2011", from_party="R. Gill", to_party="Tramway group")

    gap = next(one for one in provenance_of(engine).gaps if "Orrin" in one.words)

    assert "between Orrin Contractors and R. Gill" in gap.words
    assert "to whom Orrin Contractors passed it" in gap.closing


def test_statements_stand_in_order_of_time_whatever_order_they_came_in(tell):
    engine = VehicleFactory()
    tell(engine, "acquired", "2011", from_party="R. Gill")
    tell(engine, "moved", "before June 1956", place="Tolvane")
    tell(engine, "built", to_party="Tramway")

    assert [one.title for one in provenance_of(engine).told] == [
        "built for Tramway",
        "moved",
        "acquired by the group from R. Gill",
    ]


def test_place_in_the_chain_orders_statements_among_themselves(tell):
    engine = VehicleFactory()
    tell(engine, "sold", "1931", sequence=2, from_party="B", to_party="C")
    tell(engine, "built", "1899", to_party="A")
    tell(engine, "sold", "1931", sequence=1, from_party="A", to_party="B")

    assert [one.title for one in provenance_of(engine).told] == [
        "built for A",
        "sold by A to B",
        "sold by B to C",
    ]


def test_two_parties_of_one_name_stay_two(tell):
    engine = VehicleFactory()
    first, second = (PartyFactory(name="Gill") for _ in range(2))
    tell(engine, "sold", "1931", from_party=first, to_party=second)

    assert [one.title for one in provenance_of(engine).told] == ["sold by Gill to Gill (2)"]


def test_part_inherits_the_story_of_its_vehicle_until_it_came_off(tell):
    engine, part = VehicleFactory(), PartFactory()
    tell(engine, "built", "1899", to_party="Tramway")
    tell(engine, "sold", "1980", from_party="Tramway", to_party="R. Gill")
    removed_at = dt.datetime(1950, 5, 1, tzinfo=dt.UTC)
    RemovalFactory(vehicle=engine, part=part, removed_at=removed_at)
    tell(part, "given", "2026", from_party="A. Skarn", to_party="Tramway group")

    found = provenance_of(part).told

    assert [(one.title, one.is_inherited) for one in found] == [
        ("built for Tramway", True),
        ("given by A. Skarn to Tramway group", False),
    ]


def test_two_accounts_of_one_passage_stand_side_by_side(tell):
    engine = VehicleFactory()
    passage = {"from_party": "Tramway", "to_party": "Mill"}
    tell(engine, "sold", "1929", SourceFactory(title="Letter"), **passage)
    tell(engine, "sold", "1931", SourceFactory(title="Ledger"), **passage)

    (pair,) = provenance_of(engine).disagreements

    assert (pair.first.sources, pair.second.sources) == (("Letter",), ("Ledger",))


def test_visitor_is_told_names_only_where_they_are_public(tell):
    engine = VehicleFactory()
    town = PartyFactory(name="Tolvane Town", is_name_public=True, kind=Party.Kind.ORGANIZATION)
    tell(
        engine, "sold", "1957", from_party=town, to_party="R. Gill", place="Gill's barn", words="x"
    )

    (one,) = provenance_of(engine, for_visitor=True).told

    assert one.title == "sold by Tolvane Town to a private owner"
    assert (one.place, one.words, one.is_open) == ("", "", False)


def test_published_source_names_owners_but_never_donors(tell):
    engine, book = VehicleFactory(), SourceFactory(title="Book", is_published=True)
    tell(engine, "sold", "1957", book, from_party="A. Skarn", to_party="R. Gill")
    tell(engine, "acquired", "2011", book, from_party="R. Gill")

    told = provenance_of(engine, for_visitor=True).told

    assert [one.title for one in told] == [
        "sold by A. Skarn to a private owner",
        "acquired by the group from a private owner",
    ]


def test_visitor_is_not_told_what_an_unpublished_source_is(tell):
    engine = VehicleFactory()
    tell(engine, "built", "1899", SourceFactory(title="Private letter"), to_party="Tramway")

    found = provenance_of(engine, for_visitor=True)

    assert found.told[0].sources == ("a source that is not published",)
    assert found.notes == ("a source that is not published",)


def test_what_is_remembered_of_a_chain_follows_every_change(kestrel, tell):
    before = provenance_of(kestrel)
    Party.objects.filter(name="Orrin Contractors").update(name="Orrin & Co")
    renamed = provenance_of(kestrel)
    tell(kestrel, "sold", "1984", from_party="Orrin & Co", to_party="Rowan Ashdown")

    owners = [one.entries[1].words.split(",")[0] for one in (before, renamed)]
    assert owners == ["Orrin Contractors", "Orrin & Co"]
    assert len(provenance_of(kestrel).entries) == 3


@pytest.mark.parametrize(
    ("built", "clashes"), [("1902", 1), ("about 1902", 0), ("about 1908", 1), ("1902?", 1)]
)
def test_about_reaches_five_years_before_anything_is_called_a_contradiction(tell, built, clashes):
    engine = VehicleFactory()
    tell(engine, "built", built, to_party="Tramway")
    tell(engine, "listed", "June 1901", to_party="Tramway")

    found = provenance_of(engine).contradictions

    assert len(found) == clashes


def test_contradiction_says_how_far_about_was_taken_to_reach(tell):
    engine = VehicleFactory()
    tell(engine, "built", "about 1908", to_party="Tramway")
    tell(engine, "listed", "June 1901", to_party="Tramway")

    words = [told.words for one in provenance_of(engine).contradictions for told in one]

    about = "built to Tramway, about 1908, give or take 5 years, not before 1 January 1903"
    assert about.replace("to Tramway", "for Tramway") in words


def test_part_that_was_put_back_shares_the_story_again(tell):
    engine, part = VehicleFactory(), PartFactory()
    for year in ("1940", "1960", "1980"):
        tell(engine, "listed", year, to_party="Tramway")
    off, back = (dt.datetime(year, 5, 1, tzinfo=dt.UTC) for year in (1950, 1970))
    RemovalFactory(vehicle=engine, part=part, removed_at=off, put_back_at=back)
    RemovalFactory(vehicle=VehicleFactory(), part=part, removed_at=off)

    assert [one.when for one in provenance_of(part).told] == ["1940", "1980"]


def test_gap_before_something_after_a_year_ends_today_at_the_latest(tell):
    engine = VehicleFactory()
    tell(engine, "sold", "1929", from_party="Tramway", to_party="Pellow")
    tell(engine, "acquired", "after 2010", from_party="R. Ashdown")

    (gap,) = [one for one in provenance_of(engine).chain.gaps if one.before and one.after]

    assert gap.latest == timezone.localdate()
    assert gap.greatest_days == (timezone.localdate() - dt.date(1929, 1, 1)).days
