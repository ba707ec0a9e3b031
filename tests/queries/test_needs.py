"""What a vehicle still needs: states, the parts that would do, and why the others would not."""

import pytest

from catalog.models import Fitting, Trial
from catalog.queries import fit_bench
from catalog.queries.needs import needs_of, needs_of_vehicles
from tests.factories import (
    ComponentFactory,
    FittingFactory,
    MatingRuleFactory,
    PositionFactory,
    TrialFactory,
    VehicleClassFactory,
    VehicleFactory,
)
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db


@pytest.fixture
def tramway(db):
    return lay_out_class()


@pytest.fixture
def wagon(tramway):
    return tramway.vehicle("Wagon 14")


def states(vehicle, component):
    return {
        need.position.code: need.state
        for need in needs_of(vehicle).needs
        if need.position.component.name == component
    }


def need_at(vehicle, code):
    return next(need for need in needs_of(vehicle).needs if need.position.code == code)


def test_each_state_has_its_reason_in_the_record(tramway, wagon):
    tramway.part("journal box", usability="repair", defect="lug cracked")
    tramway.part("drawhead", usability="pattern", surviving_share="0.5")
    tramway.part("hinge", usability="unassessed")
    FittingFactory(
        vehicle=wagon,
        position=tramway.position("hinge", "HL"),
        part=tramway.part("hinge"),
        state=Fitting.State.TRIAL,
    )

    assert states(wagon, "journal box") == {"L1": "repair", "R1": "nothing"}
    assert states(wagon, "drawhead") == {"A": "pattern", "B": "pattern"}
    assert states(wagon, "hinge") == {"HL": "trial", "HR": "available"}


def test_counts_and_sentence(tramway):
    wagon = tramway.vehicle("Wagon 22", journal_box=("L1", "R1"), drawhead=("A",))
    tramway.part("hinge", quantity=2)

    needs = needs_of(wagon)

    assert (needs.essential, needs.filled, needs.blocking) == (6, 3, 1)
    assert (
        needs.sentence == "3 of 6 essential positions; 1 need blocks it, were it alone in the shop"
    )
    assert [assembly.name for assembly in needs.assemblies] == [
        "running gear",
        "draw gear",
        "body",
    ]
    tramway.part("drawhead")
    assert needs_of(wagon).sentence == (
        "3 of 6 essential positions; what is in hand could fill the rest, were it alone in the shop"
    )


def test_vehicle_without_positions_says_so():
    needs = needs_of(VehicleFactory())

    assert needs.sentence == "No essential positions are recorded."
    assert not needs.is_complete


def test_one_piece_is_counted_on_once(tramway, wagon):
    tramway.part("journal box")

    assert states(wagon, "journal box") == {"L1": "available", "R1": "nothing"}


def test_lot_is_counted_by_what_is_left_of_it(tramway, wagon):
    lot = tramway.part("hinge", quantity=2)
    other = tramway.vehicle("Wagon 22")
    FittingFactory(vehicle=other, position=tramway.position("hinge", "HL"), part=lot)

    assert states(wagon, "hinge") == {"HL": "available", "HR": "nothing"}


def test_part_of_another_class_is_no_candidate(tramway, wagon):
    tramway.part("journal box", vehicle_class=VehicleClassFactory())

    assert states(wagon, "journal box") == {"L1": "nothing", "R1": "nothing"}


def test_part_of_no_stated_class_is_one_with_a_flag(tramway, wagon):
    tramway.part("journal box", vehicle_class=None)

    need = need_at(wagon, "L1")

    assert (need.state, need.best.flags) == ("available", ("its class is not known",))


def test_part_of_the_class_a_variant_rests_on_is_one(tramway):
    variant = VehicleClassFactory(based_on=tramway.vehicle_class)
    wagon = VehicleFactory(vehicle_class=variant)
    tramway.part("journal box")

    assert states(wagon, "journal box") == {"L1": "available", "R1": "nothing"}


def test_part_kept_for_another_vehicle_is_left_alone(tramway, wagon):
    tramway.part("journal box", keep_with=tramway.vehicle("Wagon 22"))

    assert states(wagon, "journal box") == {"L1": "nothing", "R1": "nothing"}


def test_narrower_component_will_do(tramway, wagon):
    tramway.components["lidded"] = ComponentFactory(broader=tramway.components["journal box"])
    tramway.part("lidded")

    assert need_at(wagon, "L1").state == "available"


def test_measured_outside_its_limits_is_excluded_and_the_next_one_taken(tramway, wagon):
    tramway.limits("journal box", "bore", lower_mm="63", upper_mm="64")
    foreign, good = tramway.part("journal box"), tramway.part("journal box")
    tramway.measure(foreign, "bore", "76.2")
    tramway.measure(good, "bore", "63.5")

    need = need_at(wagon, "L1")

    assert (need.best.part.pk, need.best.reason) == (good.pk, "Fits: bore is within the limits.")
    assert states(wagon, "journal box") == {"L1": "available", "R1": "nothing"}


def test_worn_part_fits_by_its_limits_of_wear(tramway, wagon):
    tramway.limits("journal box", "bore", lower_mm="63", upper_mm="64", worn_upper_mm="66")
    tramway.measure(tramway.part("journal box"), "bore", "65")

    assert need_at(wagon, "L1").best.reason.startswith("Fits as worn: bore is")


def test_unmeasured_part_counts_and_says_what_to_measure(tramway, wagon):
    tramway.limits("journal box", "bore", lower_mm="63", upper_mm="64")
    tramway.part("journal box", identification_status="disputed", usability="unassessed")

    need = need_at(wagon, "L1")

    assert (need.state, need.best.reason) == ("available", "Not measured yet: measure the bore.")
    assert need.best.flags == ("condition not assessed yet", "what it is is disputed")


def test_repeats_are_combined_and_disagreement_is_flagged(tramway, wagon):
    tramway.limits("journal box", "bore", lower_mm="63", upper_mm="64")
    part = tramway.part("journal box")
    tramway.measure(part, "bore", "63.4")
    tramway.measure(part, "bore", "63.9")

    need = need_at(wagon, "L1")

    measured = need.best.verdict.characteristics[0].measured
    assert measured.value == pytest.approx(63.65)
    assert need.best.flags == ("readings of bore disagree",)


def test_trial_outranks_arithmetic(tramway, wagon):
    tramway.limits("journal box", "bore", lower_mm="63", upper_mm="64")
    too_wide, good = tramway.part("journal box"), tramway.part("journal box")
    tramway.measure(too_wide, "bore", "70")
    tramway.measure(good, "bore", "63.5")
    place = tramway.position("journal box", "L1")
    at = {"vehicle": wagon, "position": place}
    TrialFactory(part=too_wide, outcome=Trial.Outcome.WENT, **at)
    TrialFactory(
        part=good, outcome=Trial.Outcome.DID_NOT_GO, what_bound="the lug fouls the pedestal", **at
    )

    need = need_at(wagon, "L1")

    assert need.best.part.pk == too_wide.pk
    assert need.best.reason == "Fits: it was tried and went."
    assert need.others == ()
    assert need_at(wagon, "R1").best.part.pk == good.pk


def test_part_that_does_not_mate_with_its_neighbor_is_excluded(tramway):
    brass = tramway.components["brass"] = ComponentFactory(name="brass")
    PositionFactory(vehicle_class=tramway.vehicle_class, component=brass, code="L1")
    wagon = tramway.vehicle("Wagon 14", journal_box=("L1",))
    tramway.limits("brass", "height", lower_mm="1")
    tramway.limits("journal box", "opening", lower_mm="1")
    inner = brass.characteristics.get()
    outer = tramway.components["journal box"].characteristics.get()
    MatingRuleFactory(outer=outer, inner=inner, least_mm="0.1", greatest_mm="2")
    tramway.measure(wagon.fittings.get().part, "opening", "50")
    tramway.measure(tramway.part("brass"), "height", "51")
    assert states(wagon, "brass") == {"L1": "nothing"}

    fits = tramway.part("brass")
    tramway.measure(fits, "height", "49")

    best = next(n for n in needs_of(wagon).needs if n.position.component == brass).best
    assert (best.part.pk, best.verdict.characteristics[1].requirement.name) == (
        fits.pk,
        f"opening over height of {wagon.fittings.get().part}",
    )


@pytest.mark.parametrize("large", [0, 5_000])
def test_part_that_fits_is_found_behind_all_that_do_not(tramway, wagon, monkeypatch, large):
    monkeypatch.setattr(fit_bench, "LARGE", large)
    tramway.limits("journal box", "bore", lower_mm="63", upper_mm="64")
    for _ in range(6):
        tramway.measure(tramway.part("journal box"), "bore", "76.2")
    last = tramway.part("journal box")
    tramway.measure(last, "bore", "63.5")

    assert need_at(wagon, "L1").best.part.pk == last.pk


def test_measured_part_is_preferred_in_a_small_collection_wherever_it_stands(tramway, wagon):
    tramway.limits("journal box", "bore", lower_mm="63", upper_mm="64")
    for _ in range(9):
        tramway.part("journal box")
    measured = tramway.part("journal box")
    tramway.measure(measured, "bore", "63.5")

    assert need_at(wagon, "L1").best.part.pk == measured.pk


def test_visitor_learns_states_but_no_parts(tramway, wagon):
    tramway.part("journal box")
    tramway.vehicle("Wagon 22", drawhead=("A",))

    needs = needs_of(wagon, for_visitor=True)

    assert [need.state for need in needs.needs][:2] == ["available", "nothing"]
    assert {(need.fitting, need.best, need.others) for need in needs.needs} == {(None, None, ())}


def test_needs_take_the_same_queries_for_one_vehicle_and_three(
    tramway, wagon, django_assert_num_queries
):
    tramway.part("journal box")
    needs_of_vehicles([wagon])
    with django_assert_num_queries(6):
        needs_of_vehicles([wagon])
    others = [tramway.vehicle(f"Wagon {number}") for number in (22, 31)]
    for _ in range(3):
        tramway.part("drawhead")

    with django_assert_num_queries(6):
        needs_of_vehicles([wagon, *others])


def test_needs_are_reckoned_once_while_nothing_changes(tramway, wagon, django_assert_num_queries):
    tramway.part("journal box")
    found = needs_of(wagon)

    with django_assert_num_queries(1):
        again = needs_of(wagon)

    assert again is found


def test_needs_are_reckoned_anew_when_a_part_changes(tramway, wagon):
    box = tramway.part("journal box")
    before = set(states(wagon, "journal box").values())

    box.usability = "repair"
    box.save()

    after = set(states(wagon, "journal box").values())
    assert (before, after) == ({"available", "nothing"}, {"repair", "nothing"})


def test_change_of_a_class_is_seen_at_once(tramway, wagon):
    tramway.part("journal box")
    assert need_at(wagon, "L1").state == "available"

    tramway.limits("journal box", "bore", lower_mm="63", upper_mm="64")

    assert need_at(wagon, "L1").best.reason == "Not measured yet: measure the bore."
