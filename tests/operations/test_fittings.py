"""Reserving, trying and fitting, and what is refused in words that say who and what."""

import datetime as dt

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Fitting, Move, Part, Trial
from catalog.operations.fittings import (
    begin_trial,
    fit_part,
    record_trial,
    release_reservation,
    reserve_part,
    take_back_trial,
)
from tests.factories import (
    ComponentFactory,
    LocationFactory,
    MemberFactory,
    PartFactory,
    PositionFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db
MAY = dt.datetime(2026, 5, 3, 10, 0, tzinfo=dt.UTC)
State = Fitting.State


@pytest.fixture
def wagon(db):
    return VehicleFactory(label="Wagon 14")


@pytest.fixture
def box(db):
    return ComponentFactory(name="journal box")


@pytest.fixture
def place(wagon, box):
    return PositionFactory(vehicle_class=wagon.vehicle_class, component=box, code="L1")


def of(component, **values):
    return PartFactory(component=component, identification_status="agreed", **values)


def refusal(act, *args, **options):
    with pytest.raises(ValidationError) as refused:
        act(*args, **options)
    return refused.value.messages


def test_part_goes_from_reserved_over_trial_to_fitted(wagon, place, box, curator):
    part = of(box)

    reserved = reserve_part(part, wagon, place, by=curator, note="best of the six", at=MAY)
    tried = begin_trial(part, wagon, place, by=curator)
    fitted = fit_part(part, wagon, place, by=curator)

    assert reserved.pk == tried.pk == fitted.pk
    assert (fitted.state, fitted.note, fitted.begun_at) == (State.FITTED, "best of the six", MAY)
    told = fitted.history.order_by("pk").values_list("history_change_reason", flat=True)
    assert list(told) == [
        "reserved at L1 of Wagon 14",
        "on trial at L1 of Wagon 14",
        "fitted at L1 of Wagon 14",
    ]


def test_fitting_where_another_part_is_says_which_who_and_when(wagon, place, box):
    cora = MemberFactory(first_name="Cora")
    fit_part(of(box, number="2026.4.17"), wagon, place, by=cora, at=MAY)

    words = refusal(fit_part, of(box), wagon, place, by=cora)

    year = "" if dt.datetime.now(tz=dt.UTC).year == 2026 else " 2026"
    assert words == [f"L1 of Wagon 14 already has 2026.4.17, fitted by Cora on 3 May{year}."]


def test_single_part_in_use_says_where_it_is(wagon, place, box, curator):
    part = of(box, number="2026.4.17")
    other = PositionFactory(vehicle_class=wagon.vehicle_class, component=box, code="R1")
    reserve_part(part, wagon, place, by=curator, at=dt.datetime(2020, 5, 3, tzinfo=dt.UTC))

    words = refusal(begin_trial, part, wagon, other, by=curator)

    assert words == ["2026.4.17 is already at L1 of Wagon 14, reserved by cora on 3 May 2020."]


def test_lot_in_use_counts_its_pieces(wagon, box, curator):
    lot = of(box, quantity=9)
    places = [PositionFactory(vehicle_class=wagon.vehicle_class, component=box) for _ in range(10)]
    for one in places[:5]:
        fit_part(lot, wagon, one, by=curator)
    for one in places[5:9]:
        reserve_part(lot, wagon, one, by=curator)

    words = refusal(reserve_part, lot, wagon, places[9], by=curator)

    assert words == ["All 9 pieces of this lot are in use: 5 fitted, 4 reserved."]


def test_released_reservation_frees_the_part(wagon, place, box, curator):
    part = of(box)
    fitting = reserve_part(part, wagon, place, by=curator)

    release_reservation(fitting, by=curator, note="needed elsewhere")

    assert fitting.state == State.RELEASED
    assert fit_part(part, wagon, place, by=curator).pk != fitting.pk
    assert refusal(release_reservation, fitting, by=curator) == [
        f"{part} is neither reserved nor on trial there any more: reservation given up by cora."
    ]


def test_trial_that_did_not_go_frees_the_position(wagon, place, box, curator):
    part = of(box)
    fitting = begin_trial(part, wagon, place, by=curator)

    record_trial(
        part,
        vehicle=wagon,
        position=place,
        outcome=Trial.Outcome.DID_NOT_GO,
        what_bound="the lug fouls the pedestal",
        by=curator,
    )

    fitting.refresh_from_db()
    assert (fitting.state, fitting.note) == (State.REJECTED, "the lug fouls the pedestal")
    assert fit_part(of(box), wagon, place, by=curator).state == State.FITTED


def test_trial_that_went_leaves_the_part_on_trial(wagon, place, box, curator):
    part = of(box)
    fitting = begin_trial(part, wagon, place, by=curator)

    record_trial(part, vehicle=wagon, position=place, outcome=Trial.Outcome.WENT, by=curator)

    fitting.refresh_from_db()
    assert fitting.state == State.TRIAL


def test_trial_against_another_part_is_recorded(box, curator):
    part, other = of(box), of(box)

    trial = record_trial(part, other_part=other, outcome=Trial.Outcome.WITH_WORK, by=curator)

    assert (trial.other_part, trial.position) == (other, None)


def test_trial_that_did_not_go_says_what_bound(box, curator):
    told = {"other_part": of(box), "outcome": "not", "what_bound": "  "}

    words = refusal(record_trial, of(box), **told, by=curator)

    assert words == ["Say what bound, so that nobody tries it again for nothing."]
    assert not Trial.objects.exists()


def test_who_tried_takes_a_trial_back_and_the_position_stays(wagon, place, box, curator):
    fitting = begin_trial(of(box), wagon, place, by=curator)
    told = {"vehicle": wagon, "position": place, "outcome": "not", "what_bound": "the lug"}
    trial = record_trial(fitting.part, **told, by=curator)

    take_back_trial(trial, by=curator)

    fitting.refresh_from_db()
    assert not Trial.objects.kept().exists()
    assert trial.history.count() == 2
    assert fitting.state == State.REJECTED


def test_trial_of_another_is_taken_back_by_a_curator_only(box, member, curator):
    trial = record_trial(of(box), other_part=of(box), outcome="went", by=curator)

    assert refusal(take_back_trial, trial, by=member) == [
        "Only who wrote it down can take it back, or a curator."
    ]
    assert take_back_trial(trial, by=curator).is_withdrawn


def test_what_is_fitted_did_go(wagon, place, box, curator):
    part = of(box)
    fit_part(part, wagon, place, by=curator)

    told = {"vehicle": wagon, "position": place, "outcome": "not", "what_bound": "the lug"}
    words = refusal(record_trial, part, **told, by=curator)

    assert words == [f"{part} is fitted there. Take it off first, then say why."]
    assert not Trial.objects.exists()


def test_fitted_part_has_left_its_shelf(wagon, place, box, curator):
    shelf = LocationFactory(name="Shelf 2")
    part = of(box, location=shelf)

    fit_part(part, wagon, place, by=curator)

    part.refresh_from_db()
    move = Move.objects.get()
    assert (part.location, move.from_location, move.to_location) == (None, shelf, None)
    assert move.note == "fitted at L1 of Wagon 14"


def test_lot_stays_on_its_shelf_while_a_piece_is_left(wagon, place, box, curator):
    lot = of(box, quantity=2, location=LocationFactory())

    fit_part(lot, wagon, place, by=curator)

    assert Part.objects.get(pk=lot.pk).location is not None
    assert not Move.objects.exists()


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"usability": "unusable"}, "{part} is not usable."),
        ({"usability": "pattern"}, "{part} serves as a pattern only."),
        (
            {"usability": "repair", "defect": "lug cracked"},
            "{part} needs repair (lug cracked). Record the repair before fitting it.",
        ),
        (
            {"surviving_share": "0.5"},
            "Only part of {part} survives. Record how it was made whole before it goes to L1.",
        ),
        (
            {"withdrawn_at": MAY, "withdrawn_reason": "entered twice"},
            "{part} is withdrawn: entered twice.",
        ),
    ],
)
def test_what_is_not_fit_to_go_is_refused(wagon, place, box, curator, values, words):
    part = of(box, **values)

    assert refusal(fit_part, part, wagon, place, by=curator) == [words.format(part=part)]


def test_part_in_need_of_repair_may_be_reserved(wagon, place, box, curator):
    part = of(box, usability="repair")

    assert reserve_part(part, wagon, place, by=curator).state == State.RESERVED


def test_part_kept_for_another_vehicle_is_refused_until_released(wagon, place, box, curator):
    part = of(box, keep_with=VehicleFactory(label="Wagon 22"))

    words = refusal(fit_part, part, wagon, place, by=curator)

    assert words == [f"{part} is kept for Wagon 22. Change the part's record to release it."]


def test_position_of_another_class_is_refused(wagon, box, curator):
    foreign = PositionFactory(component=box, code="L9")

    words = refusal(fit_part, of(box), wagon, foreign, by=curator)

    assert words == ["L9 is not a position of Wagon 14."]


def test_other_component_is_refused_and_a_narrower_one_taken(wagon, place, box, curator):
    hinge, lidded = ComponentFactory(name="hinge"), ComponentFactory(broader=box)

    words = refusal(fit_part, of(hinge, number="2026.4.2"), wagon, place, by=curator)

    assert words == ["2026.4.2 is identified as hinge, and L1 takes a journal box."]
    assert fit_part(of(lidded), wagon, place, by=curator).state == State.FITTED


def test_unknown_piece_may_be_tried_but_not_fitted(wagon, place, curator):
    part = PartFactory(number="2026.4.3")

    words = refusal(fit_part, part, wagon, place, by=curator)

    assert words == [
        "Nobody has said yet what 2026.4.3 is. Identify it first: L1 takes a journal box."
    ]
    assert begin_trial(part, wagon, place, by=curator).state == State.TRIAL


def test_same_state_twice_is_refused(wagon, place, box, curator):
    part = of(box)
    reserve_part(part, wagon, place, by=curator)

    words = refusal(reserve_part, part, wagon, place, by=curator)

    assert words == [f"{part} is already reserved at L1 of Wagon 14."]
