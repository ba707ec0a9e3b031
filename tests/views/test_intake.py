"""What was taken in month by month, on the screen."""

import re

import pytest
from django.urls import reverse
from django.utils import timezone

from tests.factories import AccessionFactory, PartFactory

pytestmark = pytest.mark.django_db

PAGE = reverse("accession-months")


def fill():
    PartFactory(accession=AccessionFactory(), recorded_at=timezone.now())


def test_list_of_accessions_shows_the_months(signed_in):
    assert "month by month" not in signed_in.get(reverse("accession-list")).content.decode()
    fill()

    page = signed_in.get(reverse("accession-list")).content.decode()

    assert "1 piece taken in, in" in page
    assert PAGE in page


def test_each_accession_has_a_drawing_to_the_same_scale(signed_in):
    accession = AccessionFactory(year=2026, serial=4, summary="One pallet")
    PartFactory(accession=accession, recorded_at=timezone.now(), quantity=5)
    PartFactory(recorded_at=timezone.now(), quantity=5)

    page = signed_in.get(PAGE).content.decode()

    assert re.findall(r'<svg height="132" role="img" aria-label="(.+?)\.', page) == [
        "All accessions",
        "Accession 2026",
    ]
    assert re.findall(r'<rect.*?height="(\d+)"', page) == ["110", "55"]
    assert f'<a href="{accession.get_absolute_url()}">One pallet</a>' in page


@pytest.mark.parametrize("who", ["client", "as_visitor"])
def test_visitors_see_nothing_of_it(request, who):
    fill()

    assert request.getfixturevalue(who).get(PAGE).status_code in (302, 403)


@pytest.mark.parametrize("name", ["accession-months", "accession-list"])
def test_it_takes_the_same_queries_for_one_and_three(signed_in, count_queries, name):
    fill()
    one = count_queries(signed_in, reverse(name))
    fill()
    fill()

    assert count_queries(signed_in, reverse(name)) == one
