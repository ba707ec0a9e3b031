"""Mating rules between two pieces: their limits of wear alone, and the source behind them."""

import pytest

from catalog.models import MatingRule
from catalog.queries.fits import what_it_fits
from tests.corner import group, lay_out_pieces
from tests.factories import CitationFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    return lay_out_pieces()


def test_clearance_that_is_limited_when_worn_only_excludes_beyond_it(corner):
    MatingRule.objects.filter(is_required=True).update(
        least_mm=0, greatest_mm=None, worn_greatest_mm=3
    )

    found = group(what_it_fits(corner.parts["worn brass"]), "wheelset")

    assert corner.parts["worn wheelset"].pk in {pair.mate.pk for pair in found.excluded}


def test_source_behind_a_rule_is_told_with_the_clearance(corner):
    rule = MatingRule.objects.get(is_required=True)
    CitationFactory(
        event=None, mating_rule=rule, source__title="Works drawing 27", locator="detail C"
    )

    fits = what_it_fits(corner.parts["worn brass"])

    [line] = group(fits, "wheelset").mates[0].verdict.characteristics
    assert line.requirement.source == "Works drawing 27, detail C"
