"""Several parts identified or moved together."""

import pytest
from django.urls import reverse

from catalog.models import Identification
from catalog.operations.identifications import propose_identification
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


def test_what_was_said_of_several_is_taken_back_at_once(signed_in):
    parts = [PartFactory(quantity=9), PartFactory()]
    typed = {"component": ComponentFactory(name="strap hinge").pk, "confidence": "guess"}
    form = {f"identify-{name}": value for name, value in {**typed, "basis": "opinion"}.items()}
    chosen = {"act": "identify", "part": [part.pk for part in parts]}

    page = signed_in.post(TOGETHER, {**chosen, **form}, follow=True).content.decode()
    said = Identification.objects.values_list("pk", flat=True)
    address = reverse("identifications-take-back")
    signed_in.post(address, {"said": [*said, "x"]})

    assert "You say of 2 parts (10 pieces): strap hinge." in page
    assert address in page
    assert not Identification.objects.standing().exists()


def test_what_others_said_is_not_taken_back(signed_in, curator):
    part = PartFactory()
    said = propose_identification(part, component=ComponentFactory(), by=curator)

    page = signed_in.post(
        reverse("identifications-take-back"), {"said": said.pk}, follow=True
    ).content.decode()

    assert "Only who said it can take it back" in page
    assert Identification.objects.standing().get() == said


def test_identifying_nothing_says_what_to_do(signed_in):
    component = ComponentFactory().pk
    typed = {"component": component, "confidence": "guess", "basis": "opinion"}
    form = {f"identify-{name}": value for name, value in typed.items()}

    answer = signed_in.post(TOGETHER, {"act": "identify", **form})

    assert "Tick the parts" in answer.content.decode()
