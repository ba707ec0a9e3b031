"""The demonstration, loaded once for all tests of it: that takes longer than any of them."""

import pytest
from django.db import transaction

from catalog.exchange.demonstration import load_demonstration


def pytest_collection_modifyitems(items):
    """Keep these tests in one process, so that only one of them loads the demonstration."""
    here = [item for item in items if "demonstration" in item.fixturenames]
    for item in here:
        item.add_marker(pytest.mark.xdist_group("demonstration"))


@pytest.fixture(scope="package")
def demonstration(django_db_setup, django_db_blocker):
    """Load the demonstration, and take it back after the last test of this folder."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield load_demonstration()
        transaction.set_rollback(True)
