"""Stated lines beside what was cataloged."""

from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from catalog.models import Part
from catalog.queries.accessions import next_serial, reconcile, reconcile_all, waiting_lines
from tests.factories import AccessionFactory, ComponentFactory, PartFactory, StatedLineFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def accession():
    return AccessionFactory(year=2026, serial=1)


def stated(accession, text, quantity=None, component=None, **values):
    return StatedLineFactory(
        accession=accession, text=text, quantity=quantity, component=component, **values
    )


def found(accession, component=None, quantity=1, **values):
    status = Part.Standing.PROPOSED if component else Part.Standing.UNIDENTIFIED
    return PartFactory(
        accession=accession,
        component=component,
        quantity=quantity,
        identification_status=status,
        **values,
    )


def words(accession):
    return [check.words for check in reconcile(accession).lines]


def test_missing_pieces_are_told(accession):
    hinge = ComponentFactory(name="strap hinge")
    stated(accession, "about ten hinges", 10, hinge, is_approximate=True)
    found(accession, hinge, quantity=8)
    found(accession, hinge)

    (check,) = reconcile(accession).waiting
    assert check.words == "about 10 hinges stated, 9 cataloged"
    assert check.cataloged == 9


def test_agreeing_line_does_not_wait(accession):
    hinge = ComponentFactory()
    stated(accession, "two hinges", 2, hinge)
    found(accession, hinge, quantity=2)

    assert reconcile(accession).waiting == ()
    assert reconcile(accession).lines[0].agrees


def test_settled_line_does_not_wait(accession):
    stated(accession, "two hinges", 2, ComponentFactory(), settled="counted from memory")

    assert reconcile(accession).waiting == ()


def test_withdrawn_parts_do_not_count(accession):
    hinge = ComponentFactory()
    stated(accession, "one hinge", 1, hinge)
    found(accession, hinge, withdrawn_at=timezone.now())

    assert words(accession) == ["1 hinge stated, none cataloged"]


def test_half_a_piece_is_told(accession):
    head = ComponentFactory(name="drawhead")
    stated(accession, "3 drawheads", 3, head)
    found(accession, head, quantity=2)
    found(accession, head, surviving_share=Decimal("0.5"))

    assert words(accession) == ["3 drawheads stated, 3 cataloged, which survive to 2.5"]


def test_line_without_component_says_so(accession):
    stated(accession, "various castings")

    (check,) = reconcile(accession).waiting
    assert check.words == "various castings stated without a number; not tied to a component yet"


def test_lines_of_one_component_are_compared_together(accession):
    wheelset = ComponentFactory(name="wheelset")
    stated(accession, "two 16-in wheelsets", 2, wheelset)
    stated(accession, "one 18-in wheelset", 1, wheelset)
    found(accession, wheelset, quantity=3)

    assert words(accession) == [
        "2 16-in wheelsets stated; in 2 lines together 3 stated, 3 cataloged",
        "1 18-in wheelset stated; in 2 lines together 3 stated, 3 cataloged",
    ]
    assert reconcile(accession).waiting == ()


def test_narrower_components_count_for_the_broader_line(accession):
    box = ComponentFactory(name="journal box")
    flanged = ComponentFactory(name="flanged journal box", broader=box)
    stated(accession, "2 boxes", 2, box)
    found(accession, flanged)
    found(accession, box)

    assert words(accession) == ["2 boxes stated, 2 cataloged"]


def test_what_no_line_mentions_is_listed(accession):
    latch = ComponentFactory(name="latch")
    stated(accession, "one hinge", 1, ComponentFactory())
    found(accession)
    found(accession, latch, quantity=2)
    found(accession, quantity=3)

    listed = [one.words for one in reconcile(accession).unmentioned]
    assert listed == ["latch: 2 pieces", "4 pieces not identified yet"]


def test_other_accessions_do_not_count(accession):
    hinge = ComponentFactory()
    stated(accession, "one hinge", 1, hinge)
    found(AccessionFactory(), hinge)

    assert words(accession) == ["1 hinge stated, none cataloged"]


def test_many_accessions_take_as_many_queries_as_one(accession):
    others = AccessionFactory.create_batch(2)
    for one in (accession, *others):
        stated(one, "one hinge", 1, ComponentFactory())

    with CaptureQueriesContext(connection) as for_one:
        reconcile_all([accession])
    with CaptureQueriesContext(connection) as for_three:
        reconcile_all([accession, *others])

    assert len(for_three) == len(for_one) == 3


def test_waiting_lines_leave_out_the_settled_and_the_withdrawn(accession):
    line = stated(accession, "one hinge", 1, ComponentFactory())
    stated(accession, "two latches", 2, ComponentFactory(), settled="never came")
    stated(AccessionFactory(withdrawn_at=timezone.now()), "one brass", 1, ComponentFactory())

    assert [check.line for check in waiting_lines()] == [line]


def test_next_serial_begins_at_one(accession):
    assert (next_serial(2025), next_serial(2026)) == (1, 2)
