"""Taking in answers, thanking for them, and making records of them."""

import datetime as dt

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Answer, Source, Want
from catalog.operations.answers import (
    MOST_FROM_ALL,
    MOST_FROM_ONE_SENDER,
    acknowledge_answer,
    answer_to_accession,
    answer_to_party,
    answer_to_source,
    receive_answer,
    remove_answer,
    sender_digest,
)
from catalog.queries.survivors import survivor_of
from tests.factories import LONG_AGO, AnswerFactory, VehicleFactory, WantFactory

pytestmark = pytest.mark.django_db

TOLD = {
    "name": "Ada Skarn",
    "contact": "ada@skarn.example",
    "words": "One lies behind our barn.",
    "has_consent": True,
}


@pytest.fixture
def want(db):
    return WantFactory(title="Drawhead", is_published=True)


def test_answer_is_kept_with_nobody_as_its_writer(want):
    answer = receive_answer(want, TOLD, sender="digest", at=LONG_AGO)

    kept = Answer.objects.get()
    assert (kept.name, kept.contact, kept.received_at) == (
        "Ada Skarn",
        "ada@skarn.example",
        LONG_AGO,
    )
    assert (answer.history.get().history_user, kept.acknowledged_at) == (None, None)


def test_sender_is_not_kept_in_the_history(want):
    answer = receive_answer(want, TOLD, sender="digest")

    assert not hasattr(answer.history.get(), "sender")


def test_answer_without_consent_is_not_kept(want):
    with pytest.raises(ValidationError) as refusal:
        receive_answer(want, {**TOLD, "has_consent": False})

    assert "has_consent" in refusal.value.error_dict
    assert not Answer.objects.exists()


@pytest.mark.parametrize("state", [{"is_published": False}, {"closed_at": LONG_AGO}])
def test_answer_to_what_is_not_public_is_refused(state):
    want = WantFactory(**{"is_published": True, **state})

    with pytest.raises(ValidationError, match="This want is closed"):
        receive_answer(want, TOLD)


def test_one_sender_writes_so_often_in_an_hour_and_again_later(want):
    for _ in range(MOST_FROM_ONE_SENDER):
        receive_answer(want, TOLD, sender="one", at=LONG_AGO)

    with pytest.raises(ValidationError, match="send it again in an hour"):
        receive_answer(want, TOLD, sender="one", at=LONG_AGO + dt.timedelta(minutes=59))
    receive_answer(want, TOLD, sender="another", at=LONG_AGO)
    receive_answer(want, TOLD, sender="one", at=LONG_AGO + dt.timedelta(minutes=60))
    assert Answer.objects.count() == MOST_FROM_ONE_SENDER + 2


def test_all_senders_together_write_so_often_in_an_hour(want):
    AnswerFactory.create_batch(MOST_FROM_ALL, want=want, received_at=LONG_AGO)

    with pytest.raises(ValidationError, match="send it again in an hour"):
        receive_answer(want, TOLD, sender="new", at=LONG_AGO)


def test_digest_hides_the_address_and_changes_every_day(settings):
    today = sender_digest("192.0.2.7", at=LONG_AGO)

    assert len(today) == 64
    assert today == sender_digest("192.0.2.7", at=LONG_AGO + dt.timedelta(hours=1))
    assert today != sender_digest("192.0.2.8", at=LONG_AGO)
    assert today != sender_digest("192.0.2.7", at=LONG_AGO + dt.timedelta(days=1))
    settings.SECRET_KEY = "another"
    assert today != sender_digest("192.0.2.7", at=LONG_AGO)


def test_answer_is_acknowledged_with_what_came_of_it(steward, want):
    answer = acknowledge_answer(
        AnswerFactory(want=want), came_of_it="collected it in June", by=steward, at=LONG_AGO
    )

    assert (answer.acknowledged_at, answer.came_of_it) == (LONG_AGO, "collected it in June")


@pytest.mark.parametrize(
    ("contact", "field"),
    [
        ("ada@skarn.example", "email"),
        ("Lowmoor 42", "phone"),
        (
            "At the white house by the second bridge on the road to Skarn, ask for Ada or her son",
            "address",
        ),
    ],
)
def test_writer_becomes_a_party_once(steward, want, contact, field):
    answer = AnswerFactory(want=want, name="Ada Skarn", contact=contact)

    party = answer_to_party(answer, by=steward)

    assert (party.sort_name, getattr(party, field), party.is_name_public) == (
        "Skarn, Ada",
        contact,
        False,
    )
    assert answer_to_party(answer, by=steward) == party


def test_answer_becomes_a_survivor_held_by_the_writer(steward, want):
    answer = AnswerFactory(want=want, name="Ada Skarn", words="It stands in our yard.")

    source = answer_to_source(answer, by=steward)

    assert (source.kind, source.holder.name) == (Source.Kind.SURVIVOR, "Ada Skarn")
    component = str(want.component)
    assert source.title == f"{component.capitalize()}, told of in answer to “{want}”"
    assert source.notes == "In answer to “Drawhead”: It stands in our yard."
    assert not source.is_published
    with pytest.raises(ValidationError, match="It is a source already"):
        answer_to_source(answer, by=steward)


@pytest.mark.parametrize(("kind", "count"), [("survivor", 1), ("photograph", 0)])
def test_survivor_is_an_example_of_the_class_that_is_asked_for(steward, kind, count):
    wagon = VehicleFactory()
    answer = AnswerFactory(want=WantFactory(vehicle=wagon))

    source = answer_to_source(answer, kind=kind, by=steward)

    assert survivor_of(source).classes == (wagon.vehicle_class,) * count


def test_answer_becomes_a_photograph_under_a_title_of_its_own(steward, want):
    source = answer_to_source(
        AnswerFactory(want=want), kind="photograph", title="The mill in 1912", by=steward
    )

    assert (source.kind, source.title) == ("photograph", "The mill in 1912")


def test_gift_in_answer_opens_an_accession(steward, want):
    answer = AnswerFactory(want=want)

    accession = answer_to_accession(answer, by=steward, at=LONG_AGO)

    assert (accession.number, accession.summary) == ("2026.1", "Drawhead")
    assert accession.party == answer.party
    with pytest.raises(ValidationError, match="It is accession"):
        answer_to_accession(answer, by=steward)


def test_removal_erases_what_the_writer_gave_and_keeps_that_it_was(steward, want):
    answer = receive_answer(want, TOLD, sender="digest")
    source = answer_to_source(answer, by=steward)
    acknowledge_answer(answer, came_of_it="Ada brings it", by=steward)

    remove_answer(answer, why=Answer.Removal.ASKED, by=steward, at=LONG_AGO)

    kept = Answer.objects.get()
    assert (kept.name, kept.contact, kept.words) == ("removed",) * 3
    assert (kept.came_of_it, kept.sender, kept.has_consent) == ("", "", False)
    assert (kept.removed_at, kept.removed_by, kept.removed_why) == (LONG_AGO, steward, "asked")
    assert kept.source == source
    told = Answer.history.values_list("name", "contact", "words", "came_of_it")
    assert set(told) == {("removed", "removed", "removed", "")}
    assert Answer.history.first().history_change_reason == "removed"


def test_removed_answer_counts_no_more_and_makes_nothing_more(steward, want):
    answer = remove_answer(AnswerFactory(want=want), why="spam", by=steward)

    listed = Want.objects.for_list().get()
    assert (listed.answer_count, listed.waiting_count) == (0, 0)
    assert not Answer.objects.for_list().exists()
    for refused in (acknowledge_answer, answer_to_party, answer_to_source, answer_to_accession):
        with pytest.raises(ValidationError, match="This answer was removed"):
            refused(answer, by=steward)
