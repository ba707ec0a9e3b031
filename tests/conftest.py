"""A small cast for every test: one member of each role, and each of them signed in."""

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalog.models import Member
from catalog.models.members import Role
from tests import factories
from tests.factories import MemberFactory

FACTORIES = [getattr(factories, name) for name in factories.__all__ if name.endswith("Factory")]


@pytest.fixture(autouse=True)
def numbers_from_the_start() -> None:
    """Let every test count from the start, so that none depends on which ran before it."""
    for factory in FACTORIES:
        factory.reset_sequence(0, force=True)


@pytest.fixture
def visitor(db: None) -> Member:
    return MemberFactory(username="vera", role=Role.VISITOR)


@pytest.fixture
def member(db: None) -> Member:
    return MemberFactory(username="walt", role=Role.VOLUNTEER)


@pytest.fixture
def curator(db: None) -> Member:
    return MemberFactory(username="cora", role=Role.CURATOR)


@pytest.fixture
def steward(db: None) -> Member:
    return MemberFactory(username="stella", role=Role.STEWARD)


@pytest.fixture
def signed_in(client: Client, member: Member) -> Client:
    client.force_login(member)
    return client


@pytest.fixture
def as_curator(client: Client, curator: Member) -> Client:
    client.force_login(curator)
    return client


@pytest.fixture
def as_steward(client: Client, steward: Member) -> Client:
    client.force_login(steward)
    return client


@pytest.fixture
def as_visitor(client: Client, visitor: Member) -> Client:
    client.force_login(visitor)
    return client


@pytest.fixture
def count_queries():
    """Return a function that counts the queries of one page, once warmed up."""

    def count(client, address):
        client.get(address)
        with CaptureQueriesContext(connection) as queries:
            assert client.get(address).status_code == 200
        return len(queries)

    return count
