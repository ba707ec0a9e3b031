"""The process that works plans out beside the server."""

from io import StringIO

import pytest
from django.core.management import call_command

from catalog.models import Plan
from catalog.operations.plans import make_plan
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def make(curator):
    wagon = lay_out_shop().vehicles["Wagon 14"]
    return lambda name: make_plan({"name": name, "numbers": {wagon: 1}}, by=curator)


def run():
    told = StringIO()
    call_command("work_plans", once=True, stdout=told)
    return told.getvalue()


def test_all_that_wait_are_worked_out(make):
    make("Autumn")
    make("Winter")

    assert run() == "“Autumn” is ready.\n“Winter” is ready.\n"
    assert run() == ""


def test_fault_of_one_does_not_keep_others_waiting(make, caplog):
    broken = make("Autumn")
    broken.inputs = {**broken.inputs, "numbers": "nonsense"}
    broken.save()
    make("Winter")

    assert run() == "“Winter” is ready.\n"
    assert "A plan could not be worked out." in caplog.text
    assert set(Plan.objects.values_list("name", "state")) == {
        ("Autumn", "failed"),
        ("Winter", "ready"),
    }
