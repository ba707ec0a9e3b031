"""Taking in what people write in answer to a want, and what becomes of it."""

import hmac
from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from django.db import transaction
from django.utils import timezone
from django.utils.text import capfirst

from catalog.models import Accession, Answer, Member, Party, Source, Want
from catalog.operations.accessions import record_accession
from catalog.operations.citations import example_of
from catalog.operations.parties import kind_of, record_party
from catalog.operations.record import change, record_new
from catalog.operations.sources import record_source

HOUR = timedelta(hours=1)
MOST_FROM_ONE_SENDER = 5
MOST_FROM_ALL = 60
LONGEST_PHONE = 60
# What stands in place of a writer's words once these are erased, in the history too.
ERASED = "removed"


def sender_digest(address: str, *, at: datetime | None = None) -> str:
    """Return a digest of a sender's network address that cannot be turned back.

    It holds for one day: tomorrow the same address has another one.
    """
    day = timezone.localtime(at).date().isoformat()
    key = f"answers {day} {settings.SECRET_KEY}".encode()
    return hmac.new(key, address.encode(), "sha256").hexdigest()


@transaction.atomic
def receive_answer(
    want: Want, values: Mapping[str, Any], *, sender: str = "", at: datetime | None = None
) -> Answer:
    """Keep an answer to a published want: ``name``, ``contact``, ``words``, ``has_consent``.

    ``sender`` is where it came from, as a digest. Refuse one without consent, one to a want that
    is no longer public, and more in an hour than people write. Whoever writes is no member, so
    the history names nobody.
    """
    when = at or timezone.now()
    want.refresh_from_db(from_queryset=Want.objects.select_for_update())
    if not Want.objects.published().filter(pk=want.pk).exists():
        raise ValidationError("This want is closed. Thank you; nothing more is needed.")
    if not values.get("has_consent"):
        raise ValidationError(
            {"has_consent": "Without your consent nothing is kept, and we cannot reply."}
        )
    _refuse_flood(sender, when)
    told = {name: values.get(name, "") for name in ("name", "contact", "words")}
    more = {"want": want, "sender": sender, "has_consent": True, "received_at": when}
    return record_new(Answer, {**told, **more}, by=None, why="came in")


def _refuse_flood(sender: str, at: datetime) -> None:
    lately = Answer.objects.filter(received_at__gt=at - HOUR)
    from_sender = lately.filter(sender=sender).count() if sender else 0
    if from_sender >= MOST_FROM_ONE_SENDER or lately.count() >= MOST_FROM_ALL:
        raise ValidationError(
            "Many answers came within this hour. Nothing is lost: send it again in an hour."
        )


@transaction.atomic
def acknowledge_answer(
    answer: Answer, *, came_of_it: str = "", by: Member, at: datetime | None = None
) -> Answer:
    """Note that the writer was thanked, and in ``came_of_it`` what came of the answer."""
    _hold(answer)
    values = {"acknowledged_at": at or timezone.now(), "came_of_it": came_of_it.strip()}
    return change(answer, values, by=by, why="acknowledged")


@transaction.atomic
def answer_to_party(answer: Answer, *, by: Member) -> Party:
    """Record whoever wrote as a party, whose contact only members see; once is enough."""
    _hold(answer)
    if answer.party is not None:
        return answer.party
    values = {"name": answer.name, "kind": kind_of(answer.name)}
    party = record_party({**values, _reach(answer.contact): answer.contact}, by=by)
    change(answer, {"party": party}, by=by, why="recorded as a party")
    return party


def _reach(contact: str) -> str:
    """Return the field of a party that the contact belongs in, as people write contacts freely."""
    try:
        validate_email(contact)
    except ValidationError:
        return "phone" if len(contact) <= LONGEST_PHONE else "address"
    return "email"


@transaction.atomic
def answer_to_source(
    answer: Answer, *, kind: str = Source.Kind.SURVIVOR, title: str = "", by: Member
) -> Source:
    """Make a source of the answer: a surviving example, a photograph or a drawing.

    Whoever wrote becomes its holder, and a party; a title that is not given does not name them,
    as titles of published sources are public. A surviving example counts as one of the class of
    the want's vehicle, so that it is known what to measure there. Refuse a second source.
    """
    _hold(answer)
    if answer.source is not None:
        raise ValidationError(f"It is a source already: {answer.source}.")
    values = {
        "kind": kind,
        "title": title.strip() or _title(answer),
        "holder": answer_to_party(answer, by=by),
        "notes": f"In answer to “{answer.want}”: {answer.words}",
    }
    source = record_source(values, by=by)
    if source.is_survivor and answer.want.vehicle is not None:
        example_of(source, answer.want.vehicle.vehicle_class, by=by)
    change(answer, {"source": source}, by=by, why="became a source")
    return source


def _title(answer: Answer) -> str:
    component = capfirst(str(answer.want.component))
    return f"{component}, told of in answer to “{answer.want}”"[:240]


@transaction.atomic
def answer_to_accession(
    answer: Answer, *, summary: str = "", by: Member, at: datetime | None = None
) -> Accession:
    """Open an accession for what is given in answer, from whoever wrote.

    Refuse a second accession of one answer.
    """
    _hold(answer)
    if answer.accession is not None:
        raise ValidationError(f"It is accession {answer.accession} already.")
    values = {
        "party": answer_to_party(answer, by=by),
        "summary": summary.strip() or str(answer.want)[:240],
        "notes": f"In answer to “{answer.want}”: {answer.words}",
    }
    accession = record_accession(values, by=by, at=at)
    change(answer, {"accession": accession}, by=by, why="became an accession")
    return accession


@transaction.atomic
def remove_answer(answer: Answer, *, why: str, by: Member, at: datetime | None = None) -> Answer:
    """Remove spam, or what a writer wants back: name, contact and words go, from the history too.

    That there was an answer stays, with when it was removed, by whom and why. A party, a source
    or an accession that was made of it stays as well, for a steward to mend.
    """
    _hold(answer)
    erased = {**dict.fromkeys(("name", "contact", "words"), ERASED), "came_of_it": ""}
    removal = {"removed_at": at or timezone.now(), "removed_by": by, "removed_why": why}
    change(answer, {**erased, **removal, "sender": "", "has_consent": False}, by=by, why="removed")
    answer.history.update(**erased)
    return answer


def _hold(answer: Answer) -> None:
    """Hold the answer as it is now, so that nothing of one that was removed is written again."""
    answer.refresh_from_db(from_queryset=Answer.objects.select_for_update())
    if answer.is_removed:
        raise ValidationError("This answer was removed.")
