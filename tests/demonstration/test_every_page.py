"""Every link of every page leads somewhere, for each role, on the demonstration."""

import pytest
from django.test import Client

from catalog.models import Member
from tests.crawling import crawl

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("demonstration")]


@pytest.mark.parametrize("role", ["", "visitor", "volunteer", "curator", "steward"])
def test_links_lead_somewhere(role):
    client = Client(raise_request_exception=False)
    if role:
        client.force_login(Member.objects.get(username=role))

    broken = {
        address: status
        for answers in crawl(client).values()
        for address, status in answers.items()
        if status >= 400
    }

    assert broken == {}
