"""How many pieces were taken in from month to month."""

import datetime as dt

import pytest
from django.utils import timezone

from catalog.operations.lots import split_part
from catalog.queries.intake import MOST_MONTHS, intake, intake_by_accession
from tests.factories import AccessionFactory, PartFactory

pytestmark = pytest.mark.django_db

JUNE = dt.datetime(2026, 6, 20, 12, tzinfo=dt.UTC)


def moment(month, day=1, hour=0):
    return dt.datetime(2026, month, day, hour, tzinfo=dt.UTC)


def told(found):
    return {f"{month.first:%b}": month.pieces for month in found.months}


def test_pieces_are_counted_from_the_first_month_on_with_those_that_brought_nothing():
    PartFactory(recorded_at=moment(3, 31, 23), quantity=9)
    PartFactory(recorded_at=moment(4), quantity=2)
    PartFactory(recorded_at=moment(6, 19))

    found = intake(at=JUNE)

    assert told(found) == {"Mar": 9, "Apr": 2, "May": 0, "Jun": 1}
    assert found.words == "12 pieces taken in from March 2026 to June 2026; most in March 2026, 9"


def test_months_begin_where_the_group_is(settings):
    settings.TIME_ZONE = "America/New_York"
    timezone.activate("America/New_York")
    PartFactory(recorded_at=moment(4, 1, 2))
    try:
        assert told(intake(at=JUNE))["Mar"] == 1
    finally:
        timezone.deactivate()


def test_withdrawn_parts_do_not_count():
    PartFactory(recorded_at=moment(6))
    PartFactory(recorded_at=moment(6), withdrawn_at=JUNE)

    assert told(intake(at=JUNE)) == {"Jun": 1}


def test_piece_split_off_counts_in_the_month_of_its_lot(member):
    lot = PartFactory(recorded_at=moment(4), quantity=9, accession=AccessionFactory(), item=1)
    piece = split_part(lot, 3, by=member, at=moment(6))
    split_part(piece, 1, by=member, at=moment(6))

    assert told(intake(at=JUNE)) == {"Apr": 9, "May": 0, "Jun": 0}


def test_only_the_last_two_years_are_shown():
    PartFactory(recorded_at=moment(1).replace(year=2019))
    PartFactory(recorded_at=moment(6))

    found = intake(at=JUNE)

    assert (len(found.months), found.total) == (MOST_MONTHS, 1)


def test_accessions_are_told_one_by_one_over_the_same_months():
    first, second = AccessionFactory(serial=1), AccessionFactory(serial=2)
    PartFactory(recorded_at=moment(5), accession=first, quantity=4)
    PartFactory(recorded_at=moment(6), accession=second)
    PartFactory(recorded_at=moment(6))
    AccessionFactory(serial=3)

    each = [(accession, told(own)) for accession, own in intake_by_accession(at=JUNE)]

    assert each == [(second, {"May": 0, "Jun": 1}), (first, {"May": 4, "Jun": 0})]


def test_empty_catalog_brought_nothing():
    found = intake(at=JUNE)

    assert (told(found), found.words) == (
        {"Jun": 0},
        "Nothing was taken in during these months",
    )
    assert intake_by_accession(at=JUNE) == []


def test_it_is_read_from_the_index_alone(django_assert_num_queries):
    PartFactory(recorded_at=moment(3))

    with django_assert_num_queries(4):
        intake(at=JUNE)
    with django_assert_num_queries(1):
        intake(at=JUNE)
