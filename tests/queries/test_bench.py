"""The bench queue: who waits and why, who may be entered twice, and an order that misses none."""

import datetime as dt

import pytest

from catalog.models import Part
from catalog.operations.bench import see_apart
from catalog.operations.parts import change_part
from catalog.operations.record import withdraw
from catalog.queries.bench import bench_counts, bench_queue, neighbors_of, twins_of
from tests.factories import (
    LONG_AGO,
    AccessionFactory,
    ComponentFactory,
    FittingFactory,
    LocationFactory,
    PartFactory,
    PhotoFactory,
)

pytestmark = pytest.mark.django_db
TAG, OTHER_TAG = "K7Q-2M9V", "9KV-5W9R"
SAME = "f" * 64


def settled(**values):
    """Make a part that waits for nothing."""
    return PartFactory(
        **{
            "tag": f"tag {Part.objects.count()}",
            "location": LocationFactory(),
            "component": ComponentFactory(),
            "identification_status": Part.Standing.AGREED,
            **values,
        }
    )


@pytest.mark.parametrize(
    ("lacking", "reason"),
    [
        ({"tag": None}, "untagged"),
        ({"component": None, "identification_status": "unidentified"}, "unidentified"),
        ({"location": None}, "placeless"),
    ],
)
def test_part_waits_for_what_it_lacks_and_for_nothing_else(lacking, reason):
    settled()
    part = settled(**lacking)

    counts = bench_counts()

    assert list(bench_queue()) == list(bench_queue(show=reason)) == [part]
    assert {name for name, count in counts.items() if count} == {"all", reason}


def test_fitted_part_needs_neither_tag_nor_location():
    part = settled(tag=None, location=None)
    FittingFactory(part=part)

    assert list(bench_queue()) == []


def test_part_inside_another_has_its_place():
    settled(location=None, inside=settled())

    assert list(bench_queue()) == []


def test_proposed_and_withdrawn_parts_do_not_wait(curator):
    settled(identification_status=Part.Standing.PROPOSED)
    withdraw(settled(tag=None), by=curator, reason="entered twice")

    assert list(bench_queue()) == []


def test_parts_with_the_same_photograph_are_doubtful():
    pair = [settled(), settled()]
    for part in pair:
        PhotoFactory(part=part, sha256=SAME)
    PhotoFactory(part=settled())

    assert list(bench_queue(show="doubtful")) == pair
    assert [(twin.part, twin.why) for twin in twins_of(pair[0])] == [
        (pair[1], "the same photograph")
    ]


def test_the_same_photograph_twice_at_one_part_or_withdrawn_raises_no_doubt(curator):
    part, other = settled(), settled()
    PhotoFactory.create_batch(2, part=part, sha256=SAME)
    PhotoFactory(part=other, sha256=SAME, withdrawn_at=LONG_AGO)
    withdraw(photo := settled(), by=curator, reason="by mistake")
    PhotoFactory(part=photo, sha256=SAME)

    assert list(bench_queue(show="doubtful")) == []


def test_part_whose_tag_was_on_another_kept_part_is_doubtful(member):
    former = settled(tag=None)
    change_part(former, {"tag": TAG}, by=member)
    change_part(former, {"tag": OTHER_TAG}, by=member)
    part = settled(tag=None)
    change_part(part, {"tag": TAG}, by=member)

    assert list(bench_queue(show="doubtful")) == [part]
    assert [(twin.part, twin.why) for twin in twins_of(part)] == [
        (former, f"tag {TAG} was on it before")
    ]


def test_same_words_on_the_same_day_of_one_accession_are_doubtful():
    accession = AccessionFactory()
    same = {"accession": accession, "description": "Bent strap", "tag": None}
    pair = [settled(**same), settled(**{**same, "description": "bent strap"})]
    settled(**{**same, "accession": AccessionFactory()})
    settled(**{**same, "recorded_at": LONG_AGO + dt.timedelta(days=2)})

    assert list(bench_queue(show="doubtful")) == pair
    assert [twin.part for twin in twins_of(pair[1])] == [pair[0]]


def test_fitted_parts_are_told_apart_by_their_positions_whatever_their_words():
    same = {"accession": AccessionFactory(), "description": "bearing brass", "tag": None}
    FittingFactory(part=settled(**same))
    FittingFactory(part=settled(**same))

    assert list(bench_queue()) == []


def test_two_tags_are_two_pieces_whatever_their_words():
    same = {"accession": AccessionFactory(), "description": "bent strap"}
    settled(**same)
    settled(**same)
    untagged = settled(**same, tag=None)

    assert list(bench_queue(show="doubtful")) == [untagged]


def test_part_that_was_seen_apart_is_doubted_no_more(curator):
    pair = [settled(), settled()]
    for part in pair:
        PhotoFactory(part=part, sha256=SAME)

    see_apart(pair[0], by=curator)

    assert list(bench_queue(show="doubtful")) == [pair[1]]


def test_queue_keeps_its_order_and_nothing_is_passed_over(member):
    parts = [settled(tag=None) for _ in range(4)]
    assert neighbors_of(parts[1]).following == parts[2].pk

    change_part(parts[1], {"tag": TAG}, by=member)
    change_part(parts[0], {"description": "changed later"}, by=member)

    near = neighbors_of(parts[1])
    assert (near.previous, near.following, near.count) == (parts[0].pk, parts[2].pk, 3)
    assert neighbors_of(parts[3]).following is None


def test_queue_of_one_accession_leaves_others_out():
    accession = AccessionFactory()
    part = settled(tag=None, accession=accession)
    settled(tag=None)

    assert list(bench_queue(accession=accession.pk)) == [part]
    assert bench_counts(accession.pk)["untagged"] == 1
