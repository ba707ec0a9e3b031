"""A part held against a figure, from the part's own page."""

import pytest
from django.urls import reverse

from catalog.models import Likeness
from catalog.operations.patents import add_figure
from tests.factories import PartFactory, PartMarkFactory, PatentFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def figure(curator):
    patent = PatentFactory(country="XZ", number="4117")
    return add_figure(patent, picture(), label="Fig. 1", by=curator)


def test_part_is_held_against_a_figure_from_its_page(signed_in, figure):
    part = PartFactory(number="2026.1.15")
    typed = {"figure": figure.pk, "degree": "differs", "differences": "Shuts by a cam."}

    page = signed_in.post(reverse("part-likeness-add", args=[part.pk]), typed, follow=True)

    likeness = Likeness.objects.get()
    assert (likeness.part, likeness.figure) == (part, figure)
    assert "Shuts by a cam." in page.content.decode()
    assert "data-zoom-together" in page.content.decode()


def test_difference_without_words_is_refused_and_what_was_typed_is_kept(signed_in, figure):
    address = reverse("part-likeness-add", args=[PartFactory().pk])

    page = signed_in.post(address, {"figure": figure.pk, "degree": "similar"})

    assert not Likeness.objects.exists()
    assert "Say in words what differs." in page.content.decode()


def test_mark_of_a_patent_leads_to_the_reader(signed_in):
    part = PartFactory()
    PartMarkFactory(part=part, text="PAT'D ?UG 1? 190?")

    page = signed_in.get(part.get_absolute_url()).content.decode()

    assert f"{reverse('patent-reader')}?marking=PAT%27D%20%3FUG%201%3F%20190%3F" in page
    assert "Made 10 August 1900 or later" in page
