"""Whether the site says that it is alive and ready."""

import pytest
from django.db import connection
from django.test import override_settings


def test_alive_answers_without_the_database(client):
    answer = client.get("/livez")

    assert (answer.status_code, answer.content) == (200, b"alive\n")


@pytest.mark.django_db
def test_ready_when_database_migrations_and_media_are_there(client):
    answer = client.get("/readyz")

    assert answer.status_code == 200
    assert answer.json() == {"database": True, "migrations": True, "media": True}


@pytest.mark.django_db
def test_not_ready_when_media_cannot_be_written(client, tmp_path):
    file = tmp_path / "a file where the folder should be"
    file.write_text("")

    with override_settings(MEDIA_ROOT=str(file)):
        answer = client.get("/readyz")

    assert answer.status_code == 503
    assert answer.json() == {"database": True, "migrations": True, "media": False}


@pytest.mark.django_db
def test_not_ready_when_a_migration_is_not_applied(client):
    with connection.cursor() as cursor:
        cursor.execute(
            "DELETE FROM django_migrations WHERE app = 'catalog' AND name = "
            "(SELECT MAX(name) FROM django_migrations WHERE app = 'catalog')"
        )

    answer = client.get("/readyz")

    assert answer.json() == {"database": True, "migrations": False, "media": True}


@pytest.mark.parametrize("address", ["/livez", "/readyz"])
@pytest.mark.django_db
def test_a_watchdog_is_answered_without_https(client, address):
    with override_settings(
        SECURE_SSL_REDIRECT=True, SECURE_REDIRECT_EXEMPT=[r"^livez$", r"^readyz$"]
    ):
        answer = client.get(address)

    assert answer.status_code == 200
