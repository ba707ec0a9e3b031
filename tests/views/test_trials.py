"""Trials on the screen: asked for what bound, shown at the part, taken back where they stand."""

import pytest
from django.urls import reverse

from catalog.models import Trial
from catalog.operations.fittings import begin_trial, record_trial
from tests.corner import lay_out_pieces

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    return lay_out_pieces()


@pytest.fixture
def brass(corner):
    return corner.parts["worn brass"]


@pytest.fixture
def at(corner):
    return corner.at("L1", "bearing brass")


def bench(part, **against):
    which = "&".join(f"{name}={row.pk}" for name, row in against.items())
    return f"{reverse('fit-bench')}?part={part.pk}&{which}"


@pytest.mark.parametrize("form", ["bench", "position"])
def test_what_did_not_go_is_asked_what_bound(signed_in, brass, at, form):
    address = bench(brass, **at)
    if form == "position":
        address = reverse("trial-record", args=[at["vehicle"].slug, at["position"].pk, brass.pk])

    page = signed_in.post(address, {"outcome": "not", "what_bound": " "}).content.decode()

    assert "Say what bound, so that nobody tries it again for nothing." in page
    assert 'value="not" required id="id_outcome_2" checked' in page.replace(
        '" aria-invalid="true', ""
    )
    assert not Trial.objects.exists()


def test_trial_is_told_with_a_way_back_and_taken_back_on_the_bench(signed_in, brass, at):
    where = bench(brass, **at)
    told = {"outcome": "not", "what_bound": "the collar"}
    page = signed_in.post(where, told, follow=True).content.decode()
    address = reverse("trial-take-back", args=[Trial.objects.get().pk])
    assert page.count(address) == 2

    answer = signed_in.post(address, {"page": "bench"}, follow=True)

    assert answer.redirect_chain == [(where, 302)]
    page = answer.content.decode()
    assert f"The trial of {brass} is taken back. It stays in the history." in page
    assert "stays as it is now" not in page
    assert "it was tried" not in page
    assert signed_in.post(address).status_code == 404


@pytest.mark.parametrize(
    ("page", "name"), [("position", "position-detail"), ("", "part-detail"), ("x", "part-detail")]
)
def test_trial_is_taken_back_where_it_was_shown(signed_in, member, brass, at, page, name):
    trial = record_trial(brass, **at, outcome="went", by=member)
    places = {
        "position-detail": [at["vehicle"].slug, at["position"].pk],
        "part-detail": [brass.pk],
    }
    shown = reverse(name, args=places[name])
    address = reverse("trial-take-back", args=[trial.pk])
    assert address in signed_in.get(shown).content.decode()

    assert signed_in.post(address, {"page": page}).headers["Location"] == shown


def test_taking_back_says_that_the_position_stays_given_up(as_curator, curator, brass, at):
    begin_trial(brass, **at, by=curator)
    told = {"outcome": "not", "what_bound": "the collar"}
    page = as_curator.post(bench(brass, **at), told, follow=True).content.decode()
    assert f"Recorded: {brass} did not go. It has given up L1 of Wagon 31." in page

    address = reverse("trial-take-back", args=[Trial.objects.get().pk])
    page = as_curator.post(address, follow=True).content.decode()

    assert f"L1 of Wagon 31 stays as it is now: {brass} gave it up" in page


def test_curator_withdraws_the_trial_of_another_with_a_reason(
    as_curator, curator, member, brass, at
):
    begin_trial(brass, **at, by=curator)
    trial = record_trial(brass, **at, outcome="not", what_bound="the collar", by=member)
    address = reverse("record-withdraw", args=["trial", trial.pk])
    assert address in as_curator.get(bench(brass, **at)).content.decode()

    page = as_curator.post(address, {"reason": "the wrong brass"}, follow=True).content.decode()

    assert "Withdrawn: the wrong brass" in page
    assert "L1 of Wagon 31 stays as it is now" in page
    assert not Trial.objects.kept().exists()


def test_volunteer_takes_back_only_their_own(signed_in, curator, brass, at):
    trial = record_trial(brass, **at, outcome="went", by=curator)
    address = reverse("trial-take-back", args=[trial.pk])
    assert address not in signed_in.get(brass.get_absolute_url()).content.decode()

    page = signed_in.post(address, follow=True).content.decode()

    assert "Only who wrote it down can take it back, or a curator." in page
    assert Trial.objects.kept().exists()


def test_record_of_both_parts_shows_their_trial(signed_in, corner, member, brass):
    foreign = corner.parts["foreign wheelset"]
    told = {"outcome": "work", "what_bound": "eased the flanges"}
    trial = record_trial(brass, other_part=foreign, **told, by=member)

    for part, other in ((brass, foreign), (foreign, brass)):
        page = signed_in.get(part.get_absolute_url()).content.decode()
        assert (
            f'with <a class="number" href="{other.get_absolute_url()}">{other}</a>: eased' in page
        )

    back = signed_in.post(reverse("trial-take-back", args=[trial.pk]), {"page": "other"})
    assert back.headers["Location"] == foreign.get_absolute_url()
    assert "eased" not in signed_in.get(brass.get_absolute_url()).content.decode()


def test_figures_that_a_trial_outranks_are_said_to_be_arithmetic(signed_in, corner, member, brass):
    wheelset = corner.parts["worn wheelset"]
    where = bench(brass, other=wheelset)
    assert "By arithmetic alone:" not in signed_in.get(where).content.decode()

    record_trial(brass, other_part=wheelset, outcome="not", what_bound="a burr", by=member)

    page = signed_in.get(where).content.decode()
    verdict, alone, together = (
        page.index(words)
        for words in ("it was tried and did not go: a burr", "By arithmetic alone:", "All together")
    )
    assert verdict < alone < together
