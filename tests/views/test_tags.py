"""What a scanned tag opens."""

import pytest
from django.urls import reverse

from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db
TAG = "K7Q-2M9V"


@pytest.mark.parametrize("scanned", [TAG, "k7q2m9v"])
@pytest.mark.parametrize("factory", [PartFactory, LocationFactory])
def test_tag_in_use_opens_what_bears_it(signed_in, factory, scanned):
    bearer = factory(tag=TAG)

    answer = signed_in.get(f"/t/{scanned}/")

    assert answer.headers["Location"] == bearer.get_absolute_url()


def test_tag_not_in_use_opens_taking_in_with_the_code_filled_in(signed_in):
    answer = signed_in.get(f"/t/{TAG}/", follow=True)

    assert answer.redirect_chain[0][0] == f"/take-in/?tag={TAG}"
    assert f'value="{TAG}"' in answer.content.decode()


def test_tag_scanned_by_somebody_signed_out_asks_to_sign_in_and_goes_on(client):
    answer = client.get(f"/t/{TAG}/", follow=True)

    assert answer.redirect_chain[-1][0] == f"{reverse('login')}?next=/take-in/%3Ftag%3D{TAG}"


@pytest.mark.parametrize(
    ("scanned", "problem"),
    [
        ("K7O-2M9V", "“O” is never printed on a tag; look at the tag again."),
        ("K7Q-2M9", "A tag code has 7 characters, such as K7Q-2M9V; this has 6."),
        ("K7Q-29MV", "One character of K7Q-29MV is wrong, or two have changed places;"),
    ],
)
def test_tag_with_a_wrong_character_is_explained(client, scanned, problem):
    answer = client.get(f"/t/{scanned}/")

    assert answer.status_code == 404
    assert problem in answer.content.decode()
    assert f'value="{scanned}"' in answer.content.decode()


@pytest.mark.parametrize(
    ("typed", "opened"),
    [
        ("k7q 2m9v", f"/t/{TAG}/"),
        (f"https://shed.example/t/{TAG}/", f"/t/{TAG}/"),
        ("", "/t/none/"),
    ],
)
def test_tag_typed_is_opened_as_if_scanned(client, typed, opened):
    answer = client.get(reverse("tag-find"), {"code": typed})

    assert answer.headers["Location"] == opened
