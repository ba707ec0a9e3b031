"""What a phone's queue sends: taken once, answered in JSON, refused in words by field."""

import datetime as dt
from threading import Barrier, Thread
from uuid import UUID

import pytest
from django.contrib.sessions.models import Session
from django.db import connection
from django.test import Client
from django.utils import timezone

from catalog.models import Measurement, Part
from catalog.operations.captures import take_in
from tests.factories import (
    AccessionFactory,
    ComponentAliasFactory,
    InstrumentFactory,
    LocationFactory,
    MemberFactory,
    PartFactory,
)

pytestmark = pytest.mark.django_db
PIECE = UUID("6f9619ff-8b86-4d01-b42d-00cf4fc964ff")
ADDRESS = f"/sync/parts/{PIECE}/"
TAG = "K7Q-2M9V"
DAY = dt.timedelta(days=1)


def put_piece(client, member, address=ADDRESS, **told):
    return client.put(address, {"user": member.pk, **told}, content_type="application/json")


def milliseconds(moment):
    return moment.timestamp() * 1000


def test_session_says_who_is_signed_in(signed_in, member):
    answer = signed_in.get("/sync/session/")

    told = answer.json()
    assert (told["user"], told["name"], len(told["csrf"])) == (member.pk, "walt", 64)
    assert "no-store" in answer.headers["Cache-Control"]


@pytest.mark.parametrize("address", ["/sync/session/", "/sync/reference/"])
def test_reading_without_a_session_is_refused_in_json(client, db, address):
    answer = client.get(address)

    assert answer.status_code == 401
    assert answer.json()["problems"] == {
        "": ["Sign in, so that what is kept on this phone can be sent."]
    }


def test_sending_without_a_session_is_refused_in_json(client, member):
    answer = put_piece(client, member, description="strap")

    assert answer.status_code == 401
    assert not Part.objects.exists()


def test_session_of_a_visitor_is_refused(as_visitor):
    answer = as_visitor.get("/sync/session/")

    assert (answer.status_code, answer.json()["problems"]) == (
        403,
        {"": ["This is for volunteers of the group."]},
    )


def test_piece_needs_the_token_of_the_session(member):
    client = Client(enforce_csrf_checks=True)
    client.force_login(member)

    refused = put_piece(client, member, description="strap")
    token = client.get("/sync/session/").json()["csrf"]
    taken = client.put(
        ADDRESS,
        {"user": member.pk, "description": "strap"},
        content_type="application/json",
        headers={"X-CSRFToken": token},
    )

    assert (refused.status_code, refused.json()["again"]) == (403, True)
    assert taken.status_code == 201


def test_piece_is_taken_with_all_that_is_known(signed_in, member):
    box = ComponentAliasFactory(name="axlebox", component__name="journal box").component
    accession = AccessionFactory(year=2026, serial=4)
    told = {
        "description": "under the bench",
        "tag": "k7q2m9v",
        "quantity": "3",
        "component": str(box.pk),
        "usability": "repair",
        "location": LocationFactory(name="Rack 2").pk,
    }

    answer = put_piece(signed_in, member, **told, accession=accession.pk)

    part = Part.objects.get()
    echo = {"id": str(PIECE), "label": "2026.4.1", "address": part.get_absolute_url()}
    assert (answer.status_code, answer.json()) == (201, {**echo, "photos": {}})
    assert (part.tag, part.quantity, part.component, part.usability) == (TAG, 3, box, "repair")
    assert (part.recorded_by, part.location.name) == (member, "Rack 2")


def test_piece_keeps_a_measurement_as_typed(signed_in, member):
    rule = InstrumentFactory()

    put_piece(
        signed_in,
        member,
        description="box",
        measured_at="bore",
        measurement="2 1/2 in",
        instrument=rule.pk,
    )

    measurement = Measurement.objects.get()
    assert (measurement.text, measurement.instrument) == ("2 1/2 in", rule)


def test_piece_sent_ten_times_is_recorded_once(signed_in, member):
    answers = [put_piece(signed_in, member, description="strap") for _ in range(10)]

    assert [answer.status_code for answer in answers] == [201] + 9 * [200]
    assert len({answer.json()["label"] for answer in answers}) == 1
    assert Part.objects.count() == 1


@pytest.mark.django_db(transaction=True)
def test_piece_sent_twice_at_once_is_recorded_once(member):
    clients = [Client(), Client()]
    for client in clients:
        client.force_login(member)
    start = Barrier(2)
    answers = []

    def send(client):
        start.wait()
        answers.append(put_piece(client, member, description="strap", tag=TAG))
        connection.close()

    threads = [Thread(target=send, args=[client]) for client in clients]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert {answer.status_code for answer in answers} <= {200, 201}
    assert {answer.json()["id"] for answer in answers} == {str(PIECE)}
    assert Part.objects.count() == 1


def test_piece_of_another_member_is_not_taken_under_the_wrong_name(signed_in, member):
    wat = MemberFactory(username="wat")

    answer = put_piece(signed_in, wat, description="strap")

    assert (answer.status_code, answer.json()["problems"]) == (
        409,
        {"": ["This was written down by somebody else than walt."]},
    )
    assert not Part.objects.exists()


def test_piece_that_another_member_sent_is_a_conflict(signed_in, member, curator):
    take_in(by=curator, description="strap", capture_id=PIECE)

    answer = put_piece(signed_in, member, description="strap")

    assert answer.status_code == 409
    assert "cora took this piece in before" in answer.json()["problems"][""][0]


def test_piece_under_a_tag_in_use_is_a_conflict_that_says_where_it_is(signed_in, member):
    PartFactory(number="2026.4.18", description="journal box", tag=TAG)

    answer = put_piece(signed_in, member, description="strap", tag=TAG)

    assert (answer.status_code, answer.json()["problems"]) == (
        409,
        {"tag": ["Tag K7Q-2M9V is tied to 2026.4.18, journal box. Take another tag."]},
    )


@pytest.mark.parametrize(
    ("told", "problems"),
    [
        ({}, {"": ["Take one photo, or write one line of words."]}),
        ({"quantity": "0"}, {"quantity": ["A part is at least one piece."]}),
        ({"measurement": "14 mm"}, {"measurement": ["Say what was measured."]}),
        (
            {"tag": "K7Q-2M9"},
            {"tag": ["A tag code has 7 characters, such as K7Q-2M9V; this has 6."]},
        ),
        ({"written_at": "soon"}, {"written_at": ["The phone's time cannot be read."]}),
    ],
)
def test_piece_with_a_mistake_says_which_field_and_why(signed_in, member, told, problems):
    words = {"description": "strap"} if told else {}

    answer = put_piece(signed_in, member, **{**words, **told})

    assert (answer.status_code, answer.json()) == (422, {"problems": problems, "again": False})
    assert not Part.objects.exists()


@pytest.mark.parametrize("wrong", [-DAY, DAY])
def test_piece_of_a_phone_whose_clock_is_wrong_by_a_day_gets_the_right_time(
    signed_in, member, wrong
):
    now = timezone.now()
    phone = now + wrong

    put_piece(
        signed_in,
        member,
        description="strap",
        written_at=milliseconds(phone - dt.timedelta(hours=2)),
        sent_at=milliseconds(phone),
    )

    error = Part.objects.get().recorded_at - (now - dt.timedelta(hours=2))
    assert abs(error) < dt.timedelta(seconds=10)


@pytest.mark.parametrize(
    ("body", "status", "again"),
    [
        (b"<html>", 422, True),
        (b'{"description": "\\ud800"}', 422, True),
        (b"[]", 422, False),
        (b'{"description": "' + 70_000 * b"x" + b'"}', 413, False),
    ],
)
def test_body_that_is_no_piece_is_refused(signed_in, body, status, again):
    answer = signed_in.put(ADDRESS, body, content_type="application/json")

    assert (answer.status_code, answer.json()["again"]) == (status, again)


def test_expired_session_is_answered_as_none(signed_in, member):
    Session.objects.all().delete()

    assert put_piece(signed_in, member, description="strap").status_code == 401
