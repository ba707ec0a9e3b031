"""Trials that were taken back: they count nowhere, and say what they leave as it is."""

import pytest

from catalog.models import Trial
from catalog.operations.fittings import begin_trial, record_trial, take_back_trial
from catalog.operations.positions import remove_position
from catalog.queries.fit_pairs import part_at, two_parts
from catalog.queries.fits import what_it_fits
from catalog.queries.history import history_of
from catalog.queries.needs import needs_of
from catalog.queries.plans import plan_best_use
from catalog.queries.position_sheets import position_sheet
from catalog.queries.trials import gave_up, trials_of, what_stays
from tests.corner import lay_out_pieces
from tests.factories import MemberFactory, PhotoFactory, TrialFactory
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db
NOT = {"outcome": Trial.Outcome.DID_NOT_GO, "what_bound": "the lug"}


@pytest.fixture
def corner(db):
    return lay_out_pieces()


@pytest.fixture
def brass(corner):
    return corner.parts["worn brass"]


@pytest.fixture
def at(corner):
    return corner.at("R1", "bearing brass")


def taken_back(trial):
    return take_back_trial(trial, by=trial.tried_by)


def test_trial_at_a_position_counts_no_more(corner, brass, at):
    before = what_it_fits(brass).positions
    trial = TrialFactory(part=brass, **at, **NOT)
    assert position_sheet(**at).trials == (trial,)

    taken_back(trial)

    after = what_it_fits(brass).positions
    assert [each.codes for each in after.groups] == [each.codes for each in before.groups]
    assert after.excluded == before.excluded
    on_bench = part_at(brass, **at)
    assert (on_bench.trials, on_bench.verdict.trial) == ((), None)
    assert position_sheet(**at).trials == ()


def test_trial_of_two_parts_counts_no_more(corner, brass):
    foreign = corner.parts["foreign wheelset"]
    against = {"vehicle": None, "position": None, "other_part": foreign}
    trial = TrialFactory(part=brass, **against)
    assert two_parts(foreign, brass).verdict.trial is not None

    taken_back(trial)

    on_bench = two_parts(foreign, brass)
    assert (on_bench.trials, on_bench.verdict.trial) == ((), None)
    assert all(
        pair.trial is None
        for group in what_it_fits(brass).mates
        for pair in (*group.mates, *group.excluded)
    )


def test_needs_and_plans_go_by_what_stands(db):
    shop = lay_out_class()
    wagon, part = shop.vehicle("Wagon 14"), shop.part("drawhead")
    place = shop.position("drawhead", "A")
    planned = _codes(plan_best_use([wagon]))
    trial = TrialFactory(part=part, vehicle=wagon, position=place, **NOT)
    assert _best_at(wagon, "A") is None
    assert _codes(plan_best_use([wagon])) == ["B"]

    taken_back(trial)

    assert _best_at(wagon, "A") == part.pk
    assert _codes(plan_best_use([wagon])) == planned == ["A"]


def _codes(plan):
    return [use.position.code for _, use in plan.uses]


def _best_at(vehicle, code):
    need = next(need for need in needs_of(vehicle).needs if need.position.code == code)
    return need.best.part.pk if need.best else None


def test_part_tells_its_trials_from_both_sides_and_in_its_history(corner, brass, at):
    foreign = corner.parts["foreign wheelset"]
    trial = record_trial(foreign, other_part=brass, outcome="went", by=MemberFactory())
    taken_back(TrialFactory(part=brass, **at))

    assert trials_of(brass) == trials_of(foreign) == (trial,)
    for part in (brass, foreign):
        assert "trial" in {entry.subject for entry in history_of(part)}


def test_trial_for_which_a_position_was_given_up_says_that_it_stays(corner, brass, at, curator):
    begin_trial(brass, **at, by=curator)
    trial = record_trial(brass, **at, **NOT, by=curator)
    again = record_trial(brass, **at, **NOT, by=curator)

    assert gave_up(trial) == "R1 of Wagon 31"
    assert what_stays(trial).startswith(f"R1 of Wagon 31 stays as it is now: {brass} gave it up")
    assert gave_up(again) == what_stays(again) == ""


def test_position_with_a_trial_taken_back_can_go_unless_photos_show_it(curator):
    pictured, plain = TrialFactory(), TrialFactory()
    PhotoFactory(part=None, trial=pictured)
    for trial in (pictured, plain):
        taken_back(trial)

    remove_position(plain.position, by=curator)
    with pytest.raises(Exception, match="was tried there on"):
        remove_position(pictured.position, by=curator)
