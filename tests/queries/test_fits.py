"""What a part fits: positions, mating parts and sets, ranked with their reasons."""

from decimal import Decimal

import pytest

from catalog.models import Trial
from catalog.queries import fit_mates
from catalog.queries.fit_measuring import settling
from catalog.queries.fits import what_it_fits
from catalog.reckoning.conformance import Fit
from tests.corner import group, lay_out_corner, lay_out_pieces
from tests.factories import (
    FittingFactory,
    LocationFactory,
    MatingRuleFactory,
    SpecificationFactory,
    TrialFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    return lay_out_pieces()


def labels(pairs):
    return [pair.mate.label for pair in pairs]


def test_worn_brass_goes_with_the_worn_wheelset_by_the_limit_of_wear_only(corner):
    [pair] = group(what_it_fits(corner.parts["worn brass"]), "wheelset").mates

    assert pair.mate.pk == corner.parts["worn wheelset"].pk
    assert (pair.verdict.fit, pair.verdict.is_worn) == (Fit.FITS, True)
    assert pair.verdict.as_new.product < 0.01 < 0.99 < pair.verdict.as_worn.product
    assert pair.reason == (
        "Fits as worn: bore over journal diameter is within the limits of wear, not those as new."
    )


def test_foreign_wheelset_is_excluded_with_its_reason(corner):
    [pair] = group(what_it_fits(corner.parts["worn brass"]), "wheelset").excluded

    assert pair.mate.pk == corner.parts["foreign wheelset"].pk
    assert pair.reason == (
        "Does not fit: bore over journal diameter is −9.25 ± 0.47 mm, so there is no room; "
        "allowed is 0 to 4.76 mm."
    )


def test_unmeasured_wheelset_is_unknown_with_the_measurement_to_take(corner):
    [pair] = group(what_it_fits(corner.parts["worn brass"]), "wheelset").unknown

    wheelset = corner.parts["unmeasured wheelset"]
    assert pair.reason == f"Unknown: measure the journal diameter of {wheelset}."


def test_wheelset_finds_its_boxes_and_brasses_the_other_way_round(corner):
    fits = what_it_fits(corner.parts["worn wheelset"])

    assert labels(group(fits, "bearing brass").mates) == [corner.parts["worn brass"].label]
    [box] = group(fits, "journal box").mates
    assert box.mate.pk == corner.parts["box"].pk
    assert box.flags == ("the rule that joins the two is advisory",)


def test_box_that_is_not_measured_itself_says_so(corner):
    corner.part("new box", "journal box")

    fits = what_it_fits(corner.parts["new box"])

    found = group(fits, "wheelset")
    assert found.mates == found.excluded == ()
    assert found.unknown[0].verdict.missing == (f"the axle hole of {corner.parts['new box']}",)


def test_trial_between_two_parts_comes_first_and_outranks_arithmetic(corner):
    TrialFactory(
        part=corner.parts["foreign wheelset"],
        vehicle=None,
        position=None,
        other_part=corner.parts["worn brass"],
        outcome=Trial.Outcome.WITH_WORK,
    )

    found = group(what_it_fits(corner.parts["worn brass"]), "wheelset")

    assert labels(found.mates)[0] == corner.parts["foreign wheelset"].label
    assert found.mates[0].reason == "Fits: it was tried and went with work."
    assert found.excluded == ()


def test_a_used_up_wheelset_is_not_offered(corner):
    FittingFactory(
        part=corner.parts["worn wheelset"],
        vehicle=corner.vehicle,
        position=corner.vehicle_class.positions.get(code="A1"),
    )

    assert group(what_it_fits(corner.parts["worn brass"]), "wheelset").mates == ()


def test_piece_inside_another_is_where_that_one_is(corner):
    worn, box = corner.parts["worn brass"], corner.parts["box"]
    box.location = LocationFactory(name="Rack B")
    box.save()
    worn.inside = box
    worn.save()

    [pair] = group(what_it_fits(corner.parts["worn wheelset"]), "bearing brass").mates

    assert pair.mate.location == "Rack B, inside 2026.1.2"


def test_part_with_a_rule_within_itself_is_held_against_it(corner):
    wheels = corner.characteristics["journal diameter"]
    other = wheels.component.characteristics.create(name="journal diameter, other end")
    corner.characteristics["other"] = other
    MatingRuleFactory(
        outer=wheels, inner=other, least_mm=Decimal("-2.4"), greatest_mm=Decimal("2.4")
    )

    found = what_it_fits(corner.parts["worn wheelset"]).within
    assert found.fit == Fit.UNKNOWN

    corner.measure("worn wheelset", "other", "70.0")
    fits = what_it_fits(corner.parts["worn wheelset"])
    assert fits.within.fit == Fit.MISFIT
    assert fits.summary[0].startswith("Its own sizes do not go together. Does not fit: ")
    assert fits.summary[0].endswith("What follows holds only once that is put right.")


def test_readings_that_disagree_are_asked_for_again_before_any_other(corner):
    corner.measure("worn brass", "bore", "60.1")

    first = settling(what_it_fits(corner.parts["worn brass"]))[0]

    assert first.in_words == (
        "Measure the bore of 2026.1.1 again: its readings disagree, and what follows rests on them."
    )
    assert first.measure_url.startswith(f"/parts/{corner.parts['worn brass'].pk}/measure/?at=")


def test_only_so_many_are_looked_through_for_unmeasured_ones_and_it_says_so(corner, monkeypatch):
    monkeypatch.setattr(fit_mates, "SCANNED", 2)
    found = group(what_it_fits(corner.parts["worn brass"]), "wheelset")
    assert (found.looked_at, len(found.mates), len(found.unknown)) == (2, 1, 1)

    monkeypatch.setattr(fit_mates, "SCANNED", 3)
    assert group(what_it_fits(corner.parts["worn brass"]), "wheelset").looked_at == 0


def test_open_positions_are_grouped_and_worn_ones_said_to_be(corner):
    fits = what_it_fits(corner.parts["worn brass"])

    [one] = fits.positions.groups
    assert (one.vehicle, one.codes) == (corner.vehicle, "L1, R1")
    assert one.verdict.is_worn
    where, mates, together = fits.summary
    assert where == (
        "L1, R1 of Wagon 31 (over 99 % sure). "
        "Fits as worn: bore is within the limits of wear, not those as new."
    )
    assert mates.startswith(f"Wheelset {corner.parts['worn wheelset']} fits as worn: bore over ")
    unknown = corner.parts["unmeasured wheelset"]
    assert f" {unknown} is unknown: measure the journal diameter of {unknown}. " in mates
    assert f" {corner.parts['foreign wheelset']} does not fit: bore over" in mates
    assert together == (
        f"As a set it agrees with wheelset {corner.parts['worn wheelset']} and journal box "
        f"{corner.parts['box']}, by the limits of wear only (over 99 % sure)."
    )


def test_readings_that_most_wait_for_are_suggested_first(corner):
    box = corner.part("new box", "journal box")
    wheelset = corner.parts["unmeasured wheelset"]

    found = settling(what_it_fits(box))

    assert [one.in_words for one in found] == [
        f"Measure the axle hole of {box}: 3 parts wait for it.",
        f"Measure the flange width of {box}: 2 open positions wait for it.",
        f"Measure the journal diameter of {wheelset}: it decides whether the two go together.",
    ]


def test_class_whose_limits_exclude_the_piece_is_left_out_with_the_reason(corner):
    other = VehicleClassFactory(designation="Class F")
    other.positions.create(code="L1", component=corner.components["bearing brass"])
    SpecificationFactory(
        vehicle_class=other,
        characteristic=corner.characteristics["bore"],
        lower_mm=Decimal(76),
        upper_mm=Decimal(78),
    )
    VehicleFactory(vehicle_class=other)

    positions = what_it_fits(corner.parts["worn brass"]).positions

    assert [(out.designation, out.reason) for out in positions.classes_out] == [
        ("Class F", "Does not fit: bore is 66.95 ± 0.05 mm; allowed is 76 to 78 mm.")
    ]
    assert {group.vehicle for group in positions.groups} == {corner.vehicle}


def test_trial_at_a_position_comes_first(corner):
    position = corner.vehicle_class.positions.get(
        code="R1", component=corner.components["bearing brass"]
    )
    TrialFactory(part=corner.parts["worn brass"], vehicle=corner.vehicle, position=position)

    groups = what_it_fits(corner.parts["worn brass"]).positions.groups

    assert [group.codes for group in groups] == ["R1", "L1"]
    assert groups[0].candidate.reason == "Fits: it was tried and went."


def test_what_cannot_be_looked_for_says_why(corner):
    unknown = corner.part("casting", None)
    corner.parts["box"].usability = "unusable"

    assert what_it_fits(unknown).why_not.startswith("Nobody has said yet what it is")
    assert what_it_fits(corner.parts["box"]).why_not == (
        "It is not usable, so nothing is looked for."
    )


def test_unidentified_part_is_held_to_be_what_it_may_be():
    corner = lay_out_corner()
    corner.part("casting", None)
    corner.measure("casting", "Bore", "64.1")

    fits = what_it_fits(corner.parts["casting"], taken_as=corner.components["bearing brass"])

    assert fits.piece.is_assumed
    assert fits.positions.groups[0].verdict.fit == Fit.FITS
