"""Several parts identified or moved together."""

import pytest
from django.urls import reverse

from tests.factories import ComponentFactory, LocationFactory, PartFactory

pytestmark = pytest.mark.django_db
TOGETHER = reverse("part-together")


def test_chosen_parts_are_shown_with_both_forms(signed_in):
    parts = PartFactory.create_batch(2)
    PartFactory(description="left alone")

    html = signed_in.get(TOGETHER, {"part": [part.pk for part in parts]}).content.decode()

    assert "2 parts together" in html
    assert "left alone" not in html
    assert html.count(f'name="part" value="{parts[0].pk}"') == 2


def test_chosen_parts_are_identified_together(signed_in):
    parts, hinge = PartFactory.create_batch(2), ComponentFactory()

    signed_in.post(
        TOGETHER,
        {
            "act": "identify",
            "part": [part.pk for part in parts],
            "identify-component": hinge.pk,
            "identify-confidence": "certain",
            "identify-basis": "comparison",
        },
    )

    for part in parts:
        part.refresh_from_db()
        assert (part.component, part.identification_status) == (hinge, "proposed")


def test_chosen_parts_are_moved_together_with_a_way_back(signed_in):
    parts, shelf = PartFactory.create_batch(2), LocationFactory()

    page = signed_in.post(
        TOGETHER,
        {"act": "move", "part": [part.pk for part in parts], "move-location": shelf.pk},
        follow=True,
    )

    assert shelf.parts.count() == 2
    assert "2 parts moved." in page.content.decode()
    assert reverse("move-undo") in page.content.decode()


def test_form_that_is_not_filled_in_changes_nothing(signed_in):
    part = PartFactory()

    answer = signed_in.post(TOGETHER, {"act": "identify", "part": part.pk})

    assert "This field is required." in answer.content.decode()
    assert not part.identifications.exists()


@pytest.mark.parametrize("chosen", [[], ["x"], ["99999999999999999999"]])
def test_nothing_chosen_says_what_to_do(signed_in, chosen):
    assert "Tick the parts" in signed_in.get(TOGETHER, {"part": chosen}).content.decode()
