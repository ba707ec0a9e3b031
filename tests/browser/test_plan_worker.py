"""A worker that is killed while it works: the plan's page says so, and the next one finishes it."""

import datetime as dt
import subprocess
import sys
import time

import pytest
from django.conf import settings
from django.db.models import F

from catalog.models import Plan
from catalog.operations.plans import make_plan
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db(transaction=True)
PATIENCE = 120


@pytest.fixture
def start_worker(shed):
    """Return a function that starts a worker beside the server; none is left running."""
    started = []

    def start():
        command = [sys.executable, "manage.py", "work_plans"]
        worker = subprocess.Popen(  # noqa: S603
            command, cwd=settings.BASE_DIR, env=shed.environment, stdout=subprocess.DEVNULL
        )
        started.append(worker)
        return worker

    yield start
    for worker in started:
        worker.kill()
        worker.wait()


@pytest.fixture
def plan(curator, transactional_db):
    """Make a plan over more vehicles than a request tries by itself."""
    shop = lay_out_shop()
    for number in range(40, 60):
        shop.vehicle(f"Wagon {number}")
    numbers = {vehicle: place for place, vehicle in enumerate(shop.vehicles.values(), start=1)}
    return make_plan({"name": "Autumn", "numbers": numbers}, by=curator)


def killed_at_work(worker, plan):
    """Kill the worker as soon as it has claimed the plan, as a power cut does."""
    deadline = time.monotonic() + PATIENCE
    while time.monotonic() < deadline:
        if Plan.objects.filter(pk=plan.pk, state=Plan.State.WORKING).exists():
            worker.kill()
            worker.wait()
            return
        time.sleep(0.005)
    raise AssertionError("The worker never took up the plan.")


def test_plan_of_a_killed_worker_is_told_of_and_taken_up_again(
    new_context, shed, sign_in, curator, plan, start_worker, axe
):
    context = new_context(base_url=shed.url, viewport={"width": 360, "height": 640})
    sign_in(context, curator)
    page = context.new_page()
    page.goto(plan.get_absolute_url())
    page.get_by_text("Waiting to be worked out.").wait_for()

    killed_at_work(start_worker(), plan)
    page.get_by_text("Being worked out.").wait_for()
    Plan.objects.update(last_sign_at=F("last_sign_at") - dt.timedelta(seconds=31))
    page.get_by_text("The work on it broke off.").wait_for()
    axe(page)

    start_worker()
    page.get_by_text("no other use of what is in hand does better").wait_for(
        timeout=PATIENCE * 1000
    )
    plan.refresh_from_db()
    assert (plan.state, plan.error) == (Plan.State.READY, "")
