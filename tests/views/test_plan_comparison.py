"""Two plans side by side on the screen: chosen, and who gains and who loses."""

import pytest
from django.urls import reverse

from tests.factories import PlanFactory
from tests.tramway import lay_out_shop, plan_over

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(db):
    return lay_out_shop()


def words_of(client, address, **query):
    answer = client.get(address, query)
    assert answer.status_code == 200
    return answer.content.decode()


def test_two_plans_side_by_side(signed_in, curator, shop):
    one = plan_over(curator, "Fourteen", "Wagon 14", "Wagon 22")
    other = plan_over(curator, "Twenty-two", "Wagon 22", "Wagon 14")

    words = words_of(signed_in, reverse("plan-compare"), first=one.pk, second=other.pk)

    assert "Gains: it is completed" in words
    assert "Loses: it waits" in words


def test_comparing_with_what_is_not_there_is_not_found(signed_in, curator, shop):
    plan = plan_over(curator, "Fourteen", "Wagon 14")

    for second in ("x", "0"):
        asked = {"first": plan.pk, "second": second}
        assert signed_in.get(reverse("plan-compare"), asked).status_code == 404


def test_comparing_begins_with_a_choice_of_two(signed_in, curator, shop):
    address = reverse("plan-compare")
    assert "No two plans are worked out yet." in words_of(signed_in, address)
    one, _ = (plan_over(curator, name, "Wagon 14") for name in ("Fourteen", "Again"))

    chosen = words_of(signed_in, address, first=one.pk, second="")

    assert f'<option value="{one.pk}" selected>Fourteen</option>' in chosen
    assert chosen.count(">Again</option>") == 2
    assert f'href="{address}"' in words_of(signed_in, reverse("plan-list"))


def test_volunteer_is_offered_to_compare(signed_in, curator, shop):
    one, _ = (plan_over(curator, name, "Wagon 14") for name in ("Fourteen", "Again"))

    words = words_of(signed_in, one.get_absolute_url())

    assert "Compare with" in words
    assert ">Again</option>" in words


def test_comparing_with_a_plan_that_waits_says_so(signed_in, curator, shop):
    plan = plan_over(curator, "Fourteen", "Wagon 14")

    words = words_of(signed_in, reverse("plan-compare"), first=plan.pk, second=PlanFactory().pk)

    assert "One of the two is not worked out yet." in words


def test_comparing_tells_the_work_of_each(signed_in, curator, shop):
    labels = ("Wagon 14", "Wagon 22")
    one, other = (
        plan_over(curator, "One", *labels),
        plan_over(curator, "Other", *labels, patterns=True),
    )

    words = words_of(signed_in, reverse("plan-compare"), first=one.pk, second=other.pk)

    assert "Making and repair: none in the first, 24 hours, 24 of them assumed in the" in words
    assert "Gains: it is completed" in words
