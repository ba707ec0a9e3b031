"""Recording the dated events in the life of a vehicle or a part."""

from collections.abc import Mapping
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Member, Part, ProvenanceEvent, Vehicle
from catalog.operations.citing import Cited, put_behind
from catalog.operations.dates import with_date_read
from catalog.operations.parties import party_meant
from catalog.operations.record import change, record_new

PARTIES = ("from_party", "to_party", "keeper")
Certainty = ProvenanceEvent.Certainty
PASSING = frozenset({"sold", "transferred", "given", "lent"})


@transaction.atomic
def record_event(
    *,
    vehicle: Vehicle | None = None,
    part: Part | None = None,
    values: Mapping[str, Any],
    by: Member,
    cited: Cited | None = None,
) -> ProvenanceEvent:
    """Record an event of one vehicle or one part; only ``kind`` is needed.

    ``from_party``, ``to_party`` and ``keeper`` may be parties, or names: a name that nobody
    has yet is recorded as a new party. ``date_text`` may come in words alone. ``cited`` is
    the source behind it (``{"source": …, "locator": …}``). With an empty ``certainty`` it is
    documented if a source is cited, and otherwise only supposed. Refuse a passing from nobody to
    nobody, and a party that passes it to itself.
    """
    if (vehicle is None) == (part is None):
        raise ValidationError("An event is one of a vehicle or of a part.")
    read = _read(values, by=by)
    _refuse_empty(read)
    if read.get("certainty") == "":
        is_cited = bool(cited and (cited.get("source") or cited.get("title")))
        read["certainty"] = Certainty.DOCUMENTED if is_cited else Certainty.SUPPOSED
    event = record_new(ProvenanceEvent, {**read, "vehicle": vehicle, "part": part}, by=by)
    put_behind(event, cited or {}, by=by)
    return event


@transaction.atomic
def change_event(
    event: ProvenanceEvent,
    values: Mapping[str, Any],
    *,
    by: Member,
    seen: int | None = None,
    cited: Cited | None = None,
) -> ProvenanceEvent:
    """Change an event, with parties as ``record_event`` takes them; ``cited`` is added to it."""
    read = _read(values, by=by)
    _refuse_empty({name: read.get(name, getattr(event, name)) for name in ("kind", *PARTIES)})
    change(event, read, by=by, seen=seen)
    put_behind(event, cited or {}, by=by)
    return event


@transaction.atomic
def prefer_event(event: ProvenanceEvent, reason: str, *, by: Member) -> ProvenanceEvent:
    """Prefer this account where sources disagree, for a ``reason`` in words."""
    if not reason.strip():
        raise ValidationError({"preference_reason": "Say why this statement is preferred."})
    preferred = {"is_preferred": True, "preference_reason": reason.strip()}
    return change(event, preferred, by=by, why=f"preferred: {reason.strip()}")


def _read(values: Mapping[str, Any], *, by: Member) -> dict[str, Any]:
    read = with_date_read(values)
    for name in PARTIES:
        if name in read:
            read[name] = party_meant(read[name], name, by=by)
    if not read.get("is_preferred", True):
        read["preference_reason"] = ""
    return read


def _refuse_empty(read: Mapping[str, Any]) -> None:
    giver, taker = read.get("from_party"), read.get("to_party")
    if read.get("kind") in PASSING and not (giver or taker or read.get("keeper")):
        raise ValidationError({"from_party": "Say from whom or to whom, one of them at least."})
    if giver is not None and giver == taker:
        raise ValidationError({"to_party": f"{giver} cannot pass it to itself."})
