"""The lists that a phone keeps: what there is to choose, sent only when something changed."""

from uuid import UUID

import pytest

from catalog.operations.captures import take_in
from tests.factories import AccessionFactory, ComponentAliasFactory, LocationFactory

pytestmark = pytest.mark.django_db
PIECE = UUID("6f9619ff-8b86-4d01-b42d-00cf4fc964ff")
TAG = "K7Q-2M9V"


def test_reference_lists_what_there_is_to_choose(signed_in, member):
    alias = ComponentAliasFactory(name="axlebox", component__name="journal box")
    accession = AccessionFactory(year=2026, serial=4, summary="a pallet")
    AccessionFactory(is_open=False)
    LocationFactory(name="Rack 2", tag=TAG)
    take_in(by=member, description="strap", capture_id=PIECE)

    told = signed_in.get("/sync/reference/").json()

    assert told["component"] == [
        {"id": alias.component_id, "label": "journal box", "words": "axlebox", "measured": []}
    ]
    assert told["accession"] == [{"id": accession.pk, "label": "2026.4 · a pallet"}]
    assert [(row["label"], row["words"]) for row in told["location"]] == [("Rack 2", TAG)]
    assert [row["words"] for row in told["last"]] == ["strap"]


def test_reference_that_has_not_changed_is_not_sent_again(signed_in):
    first = signed_in.get("/sync/reference/")
    headers = {"If-None-Match": first.headers["ETag"]}

    same = signed_in.get("/sync/reference/", headers=headers)
    LocationFactory()
    changed = signed_in.get("/sync/reference/", headers=headers)

    assert [same.status_code, changed.status_code] == [304, 200]
    assert same.content == b""


def test_reference_asks_the_database_as_often_for_three_as_for_one(signed_in, count_queries):
    def more():
        ComponentAliasFactory()
        AccessionFactory()
        LocationFactory()

    more()
    one = count_queries(signed_in, "/sync/reference/")
    more()
    more()

    assert count_queries(signed_in, "/sync/reference/") == one
