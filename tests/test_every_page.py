"""Every link of every page leads somewhere, for each role, on the demonstration."""

import pytest
from django.test import Client

from catalog.exchange.demonstration import load_demonstration
from catalog.models import Member
from tests.crawling import crawl

ROLES = ("", "visitor", "volunteer", "curator", "steward")


@pytest.mark.django_db
def test_links_lead_somewhere_for_every_role():
    load_demonstration()

    broken = []
    for role in ROLES:
        client = Client(raise_request_exception=False)
        if role:
            client.force_login(Member.objects.get(username=role))
        for answers in crawl(client).values():
            faults = {address: status for address, status in answers.items() if status >= 400}
            broken += [
                f"{role or 'anonymous'} {address}: {status}" for address, status in faults.items()
            ]

    assert broken == []
