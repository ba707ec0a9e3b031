"""Trials on the screen: asked for what bound, and outranking the figures."""

import pytest
from django.urls import reverse

from catalog.models import Trial
from catalog.operations.fittings import record_trial
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
    brasses = corner.components["bearing brass"]
    position = corner.vehicle_class.positions.get(code="L1", component=brasses)
    return {"vehicle": corner.vehicle, "position": position}


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
