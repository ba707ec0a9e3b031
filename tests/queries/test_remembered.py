"""Test what is remembered, for how long, and how much of it."""

from catalog.models import Party
from catalog.queries import remembered as memory
from catalog.queries.remembered import remembered
from tests.factories import PartyFactory


def test_remembered_is_asked_again_when_its_table_changed(db):
    party = PartyFactory()
    before = remembered("parties", (Party,), Party.objects.count)

    PartyFactory()
    party.delete()
    PartyFactory()

    assert (before, remembered("parties", (Party,), Party.objects.count)) == (1, 2)


def test_remembered_forgets_first_what_nobody_asks_for(db, monkeypatch):
    monkeypatch.setattr(memory, "MOST", 2)
    monkeypatch.setattr(memory, "_remembered", {})
    for name in ("often", "never", "often", "now"):
        remembered(name, (Party,), Party.objects.count)

    assert list(memory._remembered) == ["often", "now"]
