"""People and organizations by whatever name people have for them."""

from collections import Counter

from catalog.models import Party


def parties_called(words: str) -> list[Party]:
    """Return the parties of this name, of “name, place”, or also known so, whatever the case."""
    wanted = words.strip().casefold()
    kept = list(Party.objects.kept())
    named = [party for party in kept if wanted in (party.name.casefold(), _placed(party))]
    return named or [party for party in kept if wanted in _other_names(party)]


def names_to_choose() -> list[str]:
    """Return every party's name, with the place behind it where two have the same."""
    kept = list(Party.objects.kept().order_by("sort_name", "name"))
    times = Counter(party.name.casefold() for party in kept)
    return [
        f"{party.name}, {party.place}" if times[party.name.casefold()] > 1 else party.name
        for party in kept
    ]


def name_to_choose(party: Party) -> str:
    """Return the name by which this one party is found again."""
    if len(parties_called(party.name)) > 1 and party.place:
        return f"{party.name}, {party.place}"
    return party.name


def _placed(party: Party) -> str:
    return f"{party.name}, {party.place}".casefold()


def _other_names(party: Party) -> list[str]:
    return [name.strip().casefold() for name in party.known_as.split(",") if name.strip()]
