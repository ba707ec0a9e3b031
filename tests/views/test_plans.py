"""Plans on the screen."""

import pytest
from django.urls import reverse
from django.utils import timezone

from catalog.models import Fitting, Hazard, Part, Plan, Vehicle
from catalog.operations.fittings import begin_trial
from catalog.operations.plans import apply_plan, undo_plan
from tests.factories import LONG_AGO, PlanFactory, VehicleFactory
from tests.tramway import lay_out_shop, plan_over

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(db):
    return lay_out_shop()


def words_of(client, address, **query):
    answer = client.get(address, query)
    assert answer.status_code == 200
    return answer.content.decode()


def typed(**changed):
    numbers = {
        f"vehicle_{vehicle.pk}": place
        for place, vehicle in enumerate(Vehicle.objects.order_by("label"), 1)
    }
    return {"name": "Autumn", "order": "strict", "held": "", "seconds": 30, **numbers, **changed}


def test_form_proposes_the_restoration_order(as_curator, shop):
    form = as_curator.get(reverse("plan-new")).context["form"]

    assert [(field.label, field.value()) for field in form.numbers] == [
        ("Wagon 14", 1),
        ("Wagon 22", 2),
        ("Wagon 31", 3),
    ]


def test_small_plan_is_ready_when_its_page_opens(as_curator, shop):
    answer = as_curator.post(reverse("plan-new"), typed(), follow=True)

    words = answer.content.decode()
    assert answer.redirect_chain[0][0] == Plan.objects.get().get_absolute_url()
    assert "and no other use of what is in hand does better" in words
    assert "Waits for 1 drawhead." in words
    assert "data-watch" not in words


def test_large_plan_waits_for_the_worker(as_curator):
    VehicleFactory.create_batch(13)

    words = as_curator.post(reverse("plan-new"), typed(), follow=True).content.decode()

    assert Plan.objects.get().state == Plan.State.WAITING
    assert "Waiting to be worked out." in words
    assert "data-watch" in words


def test_held_part_is_typed_as_people_say_it(as_curator, shop):
    as_curator.post(reverse("plan-new"), typed(held="2026.4.1 for wagon 22\n\n"))

    assert [line[1::2] for line in Plan.objects.get().inputs["held"]] == [["2026.4.1", "Wagon 22"]]


@pytest.mark.parametrize(
    ("changed", "problem"),
    [
        ({"held": "2026.4.1"}, "write the number or tag, “for”, and a vehicle"),
        ({"held": "9.9.9 for Wagon 22"}, "There is no part with the number or tag “9.9.9”."),
        ({"name": ""}, "This field is required."),
        ({"seconds": 0}, "greater than or equal to 1"),
    ],
)
def test_plan_that_cannot_be_made_keeps_what_was_typed(as_curator, shop, changed, problem):
    words = as_curator.post(reverse("plan-new"), typed(**changed)).content.decode()

    assert problem in words.replace("&quot;", '"')
    assert not Plan.objects.exists()


def test_untouched_order_is_no_weight_unless_somebody_says_so(as_curator, shop):
    some = f"vehicle_{shop.vehicles['Wagon 22'].pk}"

    refused = as_curator.post(reverse("plan-new"), typed(order="weights", **{some: ""}))
    words = refused.content.decode()
    assert "would count the first vehicle least" in words
    assert not Plan.objects.exists()
    assert [field.value() for field in refused.context["form"].numbers] == ["1", "", "3"]
    assert 'name="meant_as_weights"' in words

    meant = typed(order="weights", meant_as_weights="on")
    words = as_curator.post(reverse("plan-new"), meant, follow=True).content.decode()
    assert "1 complete, worth 2 by their weights" in words
    assert "1 complete vehicles, worth 2 by their weights: no plan is worth more." in words


def test_weights_that_somebody_typed_are_taken(as_curator, shop):
    first = f"vehicle_{shop.vehicles['Wagon 14'].pk}"

    as_curator.post(reverse("plan-new"), typed(order="weights", **{first: 5}))

    assert Plan.objects.get().inputs["order"] == "weights"


def test_plan_without_any_vehicle_is_refused(as_curator, shop):
    none = {f"vehicle_{vehicle.pk}": "" for vehicle in Vehicle.objects.all()}

    words = as_curator.post(reverse("plan-new"), typed(**none)).content.decode()

    assert "Give at least one vehicle a number" in words


def test_plan_is_applied_and_undone(as_curator, curator, shop):
    plan = plan_over(curator, "Autumn", "Wagon 14")

    applied = as_curator.post(reverse("plan-apply", args=[plan.pk]), follow=True).content.decode()
    count = Fitting.objects.filter(plan=plan, state="reserved").count()
    undone = as_curator.post(reverse("plan-undo", args=[plan.pk]), follow=True).content.decode()

    assert ("4 parts reserved as planned." in applied, count) == (True, 4)
    assert "4 given up again." in undone
    assert not Fitting.objects.active().filter(plan=plan).exists()


def test_plan_that_the_record_left_behind_says_why(as_curator, curator, shop):
    one, other = (plan_over(curator, name, "Wagon 14") for name in ("One", "Other"))
    as_curator.post(reverse("plan-apply", args=[one.pk]))

    words = as_curator.post(reverse("plan-apply", args=[other.pk]), follow=True).content.decode()

    assert "The record has moved on since the plan was made, so nothing was reserved:</p>" in words
    assert words.count("<li>2026.4.") >= 3
    assert f'href="{reverse("plan-new")}?like={other.pk}">Make the plan again</a>' in words


def test_plan_is_made_again_with_the_same_wishes(as_curator, curator, shop):
    wagon, part = shop.vehicles["Wagon 22"], Part.objects.get(number="2026.4.1")
    wishes = {"held": [(part, wagon)], "order": "weights", "patterns": True, "seconds": 9}
    plan = plan_over(curator, "Autumn", "Wagon 22", "Wagon 14", **wishes)

    form = as_curator.get(reverse("plan-new"), {"like": plan.pk}).context["form"]

    assert [field.value() for field in form.numbers] == [2, 1, None]
    told = {name: form[name].value() for name in ("name", "order", "held", "patterns", "seconds")}
    held = "2026.4.1 for Wagon 22"
    assert told == {**wishes, "name": "Autumn", "held": held}
    assert not form["repairs"].value()


def test_plan_undone_in_part_counts_what_is_left(as_curator, curator, shop):
    plan = plan_over(curator, "Autumn", "Wagon 14")
    made = apply_plan(plan, by=curator)
    begin_trial(made[0].part, made[0].vehicle, made[0].position, by=curator)
    undo_plan(plan, by=curator)

    words = " ".join(words_of(as_curator, plan.get_absolute_url()).split())

    assert "Reserve 3 parts as planned" in words
    assert "1 of 4 is where the plan sends it already: reserved, on trial or fitted." in words


def test_plan_with_castings_says_what_is_to_be_made_and_what_it_takes_for_granted(as_curator, shop):
    page = as_curator.post(reverse("plan-new"), typed(patterns="on"), follow=True)

    words = " ".join(page.content.decode().split())
    pattern = Part.objects.get(number="2026.4.3")
    assert "Can be completed by making 1 drawhead." in words
    assert f'make from pattern <a class="number" href="{pattern.get_absolute_url()}">' in words
    assert "Only 50% of the pattern survives." in words
    assert "machined to the limits on record" in words
    assert "In all <b>72 hours, 72 of them assumed</b>" in words
    assert "making nobody has estimated counts as three days, 24 hours" in words


def test_caution_stands_beside_the_work(as_curator, curator, shop):
    lead = Hazard.objects.get(slug="lead-paint")
    Part.objects.get(number="2026.4.3").hazards.add(lead)

    plan = plan_over(curator, "Castings", "Wagon 14", "Wagon 22", patterns=True)

    assert lead.caution in words_of(as_curator, plan.get_absolute_url())


def test_applying_says_what_is_still_to_be_made(as_curator, curator, shop):
    plan = plan_over(curator, "Castings", "Wagon 14", "Wagon 22", patterns=True)

    words = as_curator.post(reverse("plan-apply", args=[plan.pk]), follow=True).content.decode()

    assert "Still to be made, and no part of the record yet: 1 drawhead." in words
    assert "1 piece is still to be made" in words


def test_failed_plan_says_so(signed_in):
    plan = PlanFactory(state="failed", error="A fault of the program; the log has it.")

    assert "A fault of the program" in words_of(signed_in, plan.get_absolute_url())


def test_home_tells_that_a_plan_is_ready(signed_in):
    PlanFactory(name="Autumn", state="ready", finished_at=timezone.now())
    PlanFactory(name="Old", state="ready", finished_at=LONG_AGO)

    one = words_of(signed_in, reverse("home"))
    PlanFactory(name="Winter", state="ready", finished_at=timezone.now())
    two = words_of(signed_in, reverse("home"))

    assert "plan ready: “Autumn”" in one
    assert "plans ready" in two


def test_volunteer_reads_plans_and_makes_none(signed_in, curator, shop):
    plan = plan_over(curator, "Autumn", "Wagon 14")

    words = words_of(signed_in, plan.get_absolute_url())
    assert "as planned" not in words
    assert reverse("plan-new") not in words
    assert signed_in.get(reverse("plan-new")).status_code == 403
    for name in ("plan-apply", "plan-undo"):
        assert signed_in.post(reverse(name, args=[plan.pk])).status_code == 403


def test_visitor_reads_no_plan(as_visitor):
    plan = PlanFactory()

    for address in (plan.get_absolute_url(), reverse("plan-list"), reverse("plan-compare")):
        assert as_visitor.get(address).status_code == 403


def test_empty_list_says_what_a_plan_is(as_curator):
    assert "Nothing is reserved until you say so." in words_of(as_curator, reverse("plan-list"))


def test_pages_take_the_same_queries_for_one_and_three(signed_in, curator, count_queries, shop):
    plan = plan_over(curator, "One", "Wagon 14")
    addresses = (reverse("plan-list"), plan.get_absolute_url())
    few = [count_queries(signed_in, address) for address in addresses]
    for name in ("Two", "Three"):
        plan_over(curator, name, "Wagon 14", "Wagon 22")
    plan.outcome = Plan.objects.get(name="Three").outcome
    plan.save()

    assert [count_queries(signed_in, address) for address in addresses] == few


def test_plan_whose_worker_died_says_so_and_that_it_goes_on(as_curator, shop):
    plan = PlanFactory(state="working", started_at=LONG_AGO, last_sign_at=LONG_AGO)

    words = words_of(as_curator, plan.get_absolute_url())

    assert "The work on it broke off." in words
    assert "The next worker takes it up from the beginning" in words
    assert "data-watch" in words


def test_plan_that_waits_for_long_says_that_perhaps_no_worker_runs(as_curator, shop):
    long_since = words_of(as_curator, PlanFactory(made_at=LONG_AGO).get_absolute_url())
    new = words_of(as_curator, PlanFactory(made_at=timezone.now()).get_absolute_url())

    assert ("Nobody has taken it up" in long_since, "Nobody has taken it up" in new) == (
        True,
        False,
    )
