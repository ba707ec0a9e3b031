"""Where the opinions of several people on one piece stand."""

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from catalog.reckoning.opinions import Claim, Standing, Status, Word, standing

DAY = dt.datetime(2026, 4, 17, 9, 0, tzinfo=dt.UTC)
BOX, CASTING, LATCH = 1, 2, 3
KINDS = {BOX: (BOX, CASTING), CASTING: (CASTING,), LATCH: (LATCH, CASTING)}
E, K = 10, 11
WALT, CORA, IDA = 21, 22, 23


def on(day):
    return DAY + dt.timedelta(days=day)


def claim(key, component, by, *words, vehicle_class=None, day=0, confidence=1):
    said = tuple(Word(person, agrees, on(when)) for person, agrees, when in words)
    return Claim(key, KINDS[component], vehicle_class, by, on(day), confidence, said)


def test_nobody_has_spoken():
    assert standing([]) == Standing(Status.UNIDENTIFIED)


def test_one_claim_is_proposed():
    assert standing([claim(1, BOX, WALT)]) == Standing(Status.PROPOSED, 1, frozenset({WALT}))


def test_a_second_person_makes_it_agreed():
    found = standing([claim(1, BOX, WALT, (CORA, True, 1))])

    assert found == Standing(Status.AGREED, 1, frozenset({WALT, CORA}))


def test_nobody_agrees_with_themselves():
    assert standing([claim(1, BOX, WALT, (WALT, True, 1))]).status == Status.PROPOSED


def test_the_same_claimed_twice_is_not_yet_agreed():
    found = standing([claim(1, BOX, WALT), claim(2, BOX, CORA, day=1)])

    assert found == Standing(Status.PROPOSED, 2, frozenset({WALT, CORA}))


def test_one_objection_disputes_whatever_the_number_of_friends():
    found = standing([claim(1, BOX, WALT, (CORA, True, 1), (IDA, False, 1))])

    assert (found.status, found.objectors) == (Status.DISPUTED, frozenset({IDA}))


def test_another_kind_claimed_disputes_and_the_better_backed_leads():
    found = standing([claim(1, BOX, WALT), claim(2, LATCH, CORA, (IDA, True, 2), day=1)])

    assert found == Standing(Status.DISPUTED, 2, frozenset({CORA, IDA}), frozenset({WALT}))


def test_another_class_claimed_disputes():
    found = standing(
        [claim(1, BOX, WALT, vehicle_class=E), claim(2, BOX, CORA, vehicle_class=K, day=1)]
    )

    assert found.status == Status.DISPUTED


def test_a_narrower_claim_backs_the_broader_and_disputes_nothing():
    found = standing([claim(1, CASTING, WALT), claim(2, BOX, CORA, vehicle_class=E, day=1)])

    assert found == Standing(Status.PROPOSED, 1, frozenset({WALT, CORA}))


def test_agreement_with_the_narrower_claim_makes_that_lead():
    narrow = claim(2, BOX, CORA, (WALT, True, 2), vehicle_class=E, day=1)

    found = standing([claim(1, CASTING, WALT), narrow])

    assert found == Standing(Status.AGREED, 2, frozenset({WALT, CORA}))


def test_doubt_about_the_narrower_leaves_the_broader_alone():
    narrow = claim(2, BOX, CORA, (IDA, False, 2), day=1)

    found = standing([claim(1, CASTING, WALT, (IDA, True, 1)), narrow])

    assert (found.status, found.leading) == (Status.AGREED, 1)


def test_a_persons_latest_word_counts():
    changed_mind = claim(2, LATCH, CORA, day=3)

    found = standing([claim(1, BOX, WALT, (CORA, True, 1)), changed_mind])

    assert found == Standing(Status.DISPUTED, 2, frozenset({CORA}), frozenset({WALT}))


def test_agreeing_later_takes_back_an_objection():
    found = standing([claim(1, BOX, WALT, (CORA, False, 1)), claim(2, BOX, CORA, day=2)])

    assert (found.status, found.objectors) == (Status.PROPOSED, frozenset())


people = st.integers(1, 5)
days = st.integers(0, 6)
words = st.tuples(people, st.booleans(), days)


@st.composite
def claim_lists(draw, least=0):
    authors = draw(st.lists(people, unique=True, min_size=least, max_size=4))
    return [
        claim(
            key,
            draw(st.sampled_from(sorted(KINDS))),
            by,
            *draw(st.lists(words, max_size=3, unique_by=lambda word: word[0])),
            vehicle_class=draw(st.sampled_from([None, E, K])),
            day=draw(days),
            confidence=draw(st.integers(0, 2)),
        )
        for key, by in enumerate(authors)
    ]


@given(claim_lists(), st.randoms(use_true_random=False))
def test_the_order_of_claims_does_not_matter(claims, random):
    shuffled = random.sample(claims, len(claims))

    assert standing(shuffled) == standing(claims)


@given(claim_lists())
def test_agreed_means_two_for_and_none_against(claims):
    found = standing(claims)

    agreed = len(found.supporters) >= 2 and not found.objectors
    assert found.status != Status.AGREED or agreed
    assert (found.status == Status.DISPUTED) == bool(found.objectors)


@given(claim_lists(least=1))
def test_a_newcomers_objection_always_disputes_what_leads(claims):
    before = standing(claims)
    assume(before.leading is not None)
    doubt = Word(by=99, agrees=False, at=on(9))

    after = standing(_with_word(claims, before.leading, doubt))

    assert after.leading != before.leading or after.status == Status.DISPUTED


@given(claim_lists(least=1))
def test_a_newcomers_agreement_never_takes_the_lead_away(claims):
    before = standing(claims)
    assume(before.leading is not None)

    after = standing(_with_word(claims, before.leading, Word(by=99, agrees=True, at=on(9))))

    assert 99 in after.supporters
    assert after.supporters >= before.supporters


@given(claim_lists(), st.permutations(range(1, 6)))
def test_people_are_told_apart_by_what_they_say_only(claims, order):
    other = dict(zip(range(1, 6), order, strict=True))
    renamed = [
        replace(one, by=other[one.by], words=tuple(replace(w, by=other[w.by]) for w in one.words))
        for one in claims
    ]

    before, after = standing(claims), standing(renamed)

    assert after.leading == before.leading
    assert after.supporters == {other[person] for person in before.supporters}


@pytest.mark.parametrize("confidence", [0, 2])
def test_confidence_breaks_a_tie_only(confidence):
    sure = claim(1, BOX, WALT, confidence=2)
    later = claim(2, LATCH, CORA, day=1, confidence=confidence)

    assert standing([sure, later]).leading == (2 if confidence == 2 else 1)


def _with_word(claims, key, word):
    return [replace(one, words=(*one.words, word)) if one.key == key else one for one in claims]
