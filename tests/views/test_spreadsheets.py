"""Lists to take away."""

import pytest
from django.urls import reverse

from catalog.operations.parts import record_part
from tests.factories import PartFactory, PlanFactory, VehicleFactory

pytestmark = pytest.mark.django_db


def test_the_spreadsheet_holds_the_same_choice_as_the_list(signed_in, member):
    record_part({"description": "hinge", "usability": "ready"}, by=member)
    record_part({"description": "hinge", "usability": "repair"}, by=member)
    record_part({"description": "spring", "usability": "ready"}, by=member)

    answer = signed_in.get(reverse("part-spreadsheet"), {"words": "hinge", "usability": "ready"})

    assert answer.content.decode().count("\r\n") == 2
    assert "hinge" in answer.content.decode()
    assert answer["Content-Disposition"].startswith('attachment; filename="parts ')


def test_needs_of_all_vehicles_come_as_one_spreadsheet(signed_in):
    VehicleFactory()

    answer = signed_in.get(reverse("needs-spreadsheet"))

    assert answer["Content-Type"] == "text/csv; charset=utf-8"
    assert answer.content.decode("utf-8-sig").startswith("Vehicle,Assembly,Position")


def test_plan_comes_as_a_spreadsheet_once_it_is_worked_out(signed_in):
    waiting = PlanFactory()
    outcome = {"sentence": "", "is_proven": True, "levels": [], "vehicles": []}
    ready = PlanFactory(outcome=outcome)

    answer = signed_in.get(reverse("plan-spreadsheet", args=[ready.pk]))

    assert answer.content.decode("utf-8-sig").startswith("Vehicle,Position,Component,What to do")
    assert signed_in.get(reverse("plan-spreadsheet", args=[waiting.pk])).status_code == 404


def test_visitors_get_no_spreadsheet(client):
    PartFactory(is_published=True)

    for name in ("part-spreadsheet", "needs-spreadsheet"):
        assert client.get(reverse(name)).status_code == 302
