"""The page on which members sign in."""

import pytest
from django.urls import reverse

pytestmark = pytest.mark.django_db


def test_sign_in_names_the_group_and_not_the_address(client, settings):
    page = client.get(reverse("login")).content.decode()

    assert f"· {settings.SITE_NAME}</title>" in page
    assert "testserver" not in page
