"""Sets of three that must agree: which come first, and who states their limits."""

import pytest

from catalog.models import MatingRule
from catalog.queries.fits import what_it_fits
from catalog.reckoning.conformance import Fit
from tests.corner import lay_out_pieces
from tests.factories import CitationFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    return lay_out_pieces()


def test_set_of_one_corner_holds_all_three_pieces(corner):
    fits = what_it_fits(corner.parts["box"])

    best = fits.sets[0]
    assert {piece.pk for _, piece in best.members} == {
        corner.parts[name].pk for name in ("box", "worn wheelset", "worn brass")
    }
    assert (best.fit, best.is_worn) == (Fit.FITS, True)
    lower, upper = best.bounds
    assert lower <= best.chance <= upper
    assert fits.sets[1].missing == (
        f"the journal diameter of {corner.parts['unmeasured wheelset']}",
    )


def test_sets_say_who_states_the_limits_that_they_are_held_against(corner):
    [rule] = MatingRule.objects.filter(
        outer=corner.characteristics["bore"], inner=corner.characteristics["journal diameter"]
    )
    CitationFactory(
        event=None, mating_rule=rule, source__title="Works drawing 27", locator="detail C"
    )

    told = dict(what_it_fits(corner.parts["box"]).limits_of_sets)

    assert told["bore over journal diameter"] == "Works drawing 27, detail C"
    assert {words for name, words in told.items() if name != "bore over journal diameter"} == {
        "no source cited"
    }


def test_pieces_that_lie_in_one_another_come_before_a_better_fit_among_strangers(corner):
    corner.part("new brass", "bearing brass")
    corner.measure("new brass", "bore", "63.6")
    box, worn = corner.parts["box"], corner.parts["worn brass"]
    assert what_it_fits(box).sets[0].is_worn is False

    worn.inside = box
    worn.save()

    fits = what_it_fits(box)
    assert (fits.sets[0].is_worn, fits.sets[0].lies_in) == (True, (f"{worn} lies in {box}",))
    assert fits.summary[-2:] == (
        "As a set it agrees with wheelset 2026.1.3 and bearing brass 2026.1.1 "
        "(2026.1.1 lies in 2026.1.2), by the limits of wear only (over 99 % sure).",
        "As new it agrees with wheelset 2026.1.3 and bearing brass 2026.1.6 (over 99 % sure).",
    )
    assert what_it_fits(worn).sets[0].lies_in == fits.sets[0].lies_in


def test_what_lies_in_the_piece_is_combined_however_many_others_there_are(corner, monkeypatch):
    monkeypatch.setattr("catalog.queries.fit_corners.COMBINED", 1)
    corner.part("new brass", "bearing brass", number_sort="2026.00001.000000")
    corner.measure("new brass", "bore", "63.6")
    worn = corner.parts["worn brass"]
    worn.inside = corner.parts["box"]
    worn.save()

    (best,) = what_it_fits(corner.parts["box"]).sets

    assert worn.pk in {piece.pk for _, piece in best.members}
