"""Chains of owners and keepers: periods, gaps, overlaps and contradictions."""

import datetime as dt
from dataclasses import replace
from itertools import pairwise

import pytest

from catalog.reckoning.chains import chain
from catalog.reckoning.chronology import Order
from catalog.reckoning.edtf_dates import parse_date
from catalog.reckoning.periods import ProvenanceEvent
from catalog.reckoning.provenance_texts import provenance_entries, provenance_text
from catalog.reckoning.time_spans import span_words


def event(key, when, kind, giver="", taker="", **more):
    date = parse_date(when)
    return ProvenanceEvent(
        key, date.earliest, date.latest, more.pop("label", key), more.pop("source", ""),
        kind=kind, from_party=giver, to_party=taker, when=date.in_words() if when else "", **more,
    )  # fmt: skip


BUILT = event("built", "1899", "built", "Calder & Voss", "Marrow Fell Tramway", source="works list")
LISTED = event("listed", "March 1930", "listed", "", "Marrow Fell Tramway", source="inventory")
LETTER = event(
    "sold", "spring 1929", "sold", "Marrow Fell Tramway", "a contractor", source="letter"
)
SALE = replace(LETTER, earliest=dt.date(1931, 6, 1), latest=dt.date(1931, 6, 30), when="June 1931")
SEEN = event("seen", "about 1938", "listed", "", "a contractor", source="photograph")
PLAYED = event("placed", "1957", "given", "", "the town", certainty="probable")
BOUGHT = event("bought", "1984", "sold", "the town", "Ada Crane")
GIFT = event("gift", "2011", "acquired", "Ada Crane", "the group")
STORY = (BUILT, LISTED, SALE, SEEN, PLAYED, BOUGHT, GIFT)


def test_owners_follow_one_another_with_the_events_between_them():
    owners = chain(STORY).owners

    assert [
        (one.party, one.begin and one.begin.key, one.end and one.end.key) for one in owners
    ] == [
        ("Marrow Fell Tramway", "built", "sold"),
        ("a contractor", "sold", None),
        ("the town", "placed", "bought"),
        ("Ada Crane", "bought", "gift"),
        ("the group", "gift", None),
    ]
    assert [later.follows(one) for one, later in pairwise(owners)] == [
        True,
        False,
        True,
        True,
    ]


def test_a_gap_reaches_from_the_last_sighting_to_the_next_event():
    (gap,) = chain(STORY).gaps

    assert (gap.before.party, gap.after.party) == ("a contractor", "the town")
    assert (gap.earliest, gap.latest) == (dt.date(1938, 1, 1), dt.date(1957, 12, 31))
    assert gap.least_days == (dt.date(1957, 1, 1) - dt.date(1938, 12, 31)).days
    assert gap.greatest_days == (gap.latest - gap.earliest).days
    assert gap.in_words() == (
        "Nothing is known of any owner between a contractor and the town, "
        "for at least 18 years and at most 20 years."
    )
    assert gap.what_would_close_it() == (
        "A record would close this gap that says to whom a contractor passed it after 1 January 1938, "
        "or from whom the town had it by 31 December 1957."
    )


def test_a_sale_before_a_listing_contradicts_and_names_its_sources():
    followed = chain([BUILT, LISTED, LETTER])
    (contradiction,) = followed.contradictions

    assert {one.source for one in contradiction.statements} == {"inventory", "letter", ""}
    assert contradiction.in_words() == (
        "These cannot all be true: listed, not before 1 March 1930 (inventory); Marrow Fell Tramway cannot be "
        "seen with it after passing it on; sold, not after 31 May 1929 (letter)."
    )
    assert followed.owners[0].end == LETTER


def test_a_sale_before_the_build_contradicts():
    early = event("sold", "1898", "sold", "Marrow Fell Tramway", "a contractor")

    assert [len(one.statements) for one in chain([BUILT, early]).contradictions] == [3]


def test_events_after_scrapping_contradict():
    scrapped = event("scrapped", "1940", "scrapped", "a contractor")

    assert len(chain([*STORY, scrapped]).contradictions) == 1
    assert chain([BUILT, SALE, scrapped]).gaps == ()


def test_two_owners_at_once_overlap_only_where_that_is_sure():
    other = event("other", "1920", "sold", "someone", "the mill")
    resold = event("resold", "1925", "sold", "the mill", "a dealer")
    (overlap,) = [
        one
        for one in chain([BUILT, other, resold, SALE]).overlaps
        if one.second.party == "the mill"
    ]

    assert overlap.in_words() == (
        "Marrow Fell Tramway and the mill are both on record as owner from 31 December 1920 to 1 January 1925."
    )


def test_bounds_of_an_undated_event_are_tightened_by_the_chain():
    followed = chain(
        [
            BUILT,
            replace(SALE, earliest=None, latest=None),
            event("again", "1940", "sold", "a contractor", "the mill"),
        ]
    )

    assert (followed.owners[1].begin.earliest, followed.owners[1].begin.latest) == (
        BUILT.earliest,
        dt.date(1940, 12, 31),
    )


def test_further_orders_count():
    late = chain([BUILT, replace(SALE, earliest=None)], [Order("built", "sold", 10_000)])

    assert late.owners[0].end.earliest == dt.date(1899, 1, 1) + dt.timedelta(10_000)


def test_an_owner_who_is_only_seen_stands_where_the_days_belong():
    seen = event("plate", "1940", "listed", "", "the quarry")

    parties = [one.party for one in chain([BUILT, SALE, PLAYED, seen]).owners]

    assert parties == ["Marrow Fell Tramway", "a contractor", "the quarry", "the town"]


def test_an_owner_is_not_a_keeper():
    lent = event("lent", "1960", "lent", "the town", "a school")
    back = event("back", "1970", "moved", "a school", "the town")
    followed = chain([PLAYED, lent, back, BOUGHT])

    assert [one.party for one in followed.owners] == ["the town", "Ada Crane"]
    assert [(one.party, one.end and one.end.key) for one in followed.keepers] == [
        ("a school", "back"),
        ("the town", None),
    ]


def test_a_chain_that_begins_or_ends_in_the_dark_says_so():
    sold = event("sold", "1931", "sold", "the mill", "")

    assert [gap.in_words() for gap in chain([sold]).gaps] == [
        "Nothing is known of any owner before the mill.",
        "Nothing is known of any owner after the mill.",
    ]
    assert chain([sold]).gaps[1].what_would_close_it() == (
        "A record would close this gap that says who had it from the mill."
    )


def test_two_accounts_of_one_sale_must_agree_unless_one_is_preferred():
    book = replace(SALE, key="book", label="sold", source="book")
    both = [BUILT, LETTER, book]

    assert [len(one.statements) for one in chain(both).contradictions] == [3]
    settled = chain([BUILT, LETTER, replace(book, is_preferred=True)])
    assert settled.contradictions == ()
    assert (settled.owners[0].end.key, settled.accounts[0].first) == ("book", LETTER)
    assert [one.key for one in settled.events] == ["built", "book"]


def test_no_events_are_an_empty_chain():
    empty = chain([])

    assert (empty.periods, empty.gaps, empty.overlaps, empty.contradictions) == ((), (), (), ())
    assert provenance_text(empty) == ""


def test_the_text_carries_doubts_ends_and_sources():
    entries = provenance_entries(chain(STORY))

    assert provenance_text(chain(STORY), dealers={"Ada Crane"}) == (
        "Marrow Fell Tramway, new 1899; a contractor, bought June 1931, last known about 1938. "
        "The town, probably by gift 1957; (Ada Crane), bought 1984; the group, acquired 2011."
    )
    assert entries[0].sources == ("works list", "inventory", "letter")


@pytest.mark.parametrize(
    ("earliest", "latest", "words"),
    [
        (None, None, "Mill, bought at an unknown date."),
        (dt.date(1902, 3, 4), dt.date(1902, 3, 4), "Mill, bought 4 March 1902."),
        (dt.date(1902, 3, 4), None, "Mill, bought 4 March 1902 or later."),
        (None, dt.date(1902, 3, 4), "Mill, bought 4 March 1902 or earlier."),
        (
            dt.date(1902, 3, 4),
            dt.date(1903, 1, 1),
            "Mill, bought between 4 March 1902 and 1 January 1903.",
        ),
    ],
)
def test_a_date_without_words_is_said_by_its_bounds(earliest, latest, words):
    sold = ProvenanceEvent("sold", earliest, latest, kind="sold", to_party="Mill")

    assert provenance_text(chain([sold])) == words


def test_an_owner_who_is_only_seen_is_there_by_that_date():
    assert provenance_text(chain([LISTED])) == "Marrow Fell Tramway, by March 1930."


@pytest.mark.parametrize(
    ("least", "greatest", "words"),
    [
        (None, None, "an unknown time"),
        (0, None, "an unknown time"),
        (1, None, "at least 1 day"),
        (59, 60, "at least 59 days and at most 2 months"),
        (365, 365, "at least 11 months and at most 12 months"),
        (7305, 7305, "at least 20 years and at most 20 years"),
        (7304, 7306, "at least 19 years and at most 21 years"),
    ],
)
def test_lengths_are_rounded_so_that_they_stay_true(least, greatest, words):
    assert span_words(least, greatest) == words
