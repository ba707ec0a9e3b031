"""The web app: its manifest, a worker that is another one when anything changes, kept pages."""

import json
import re

import pytest
from django.conf import settings

from catalog.views.worker import STATIC
from tests.factories import AccessionFactory, ComponentAliasFactory, LocationFactory

pytestmark = pytest.mark.django_db


def kept_files(script):
    return json.loads(re.search(r"const FILES = (.*);", script).group(1))


def script_of(client):
    return client.get("/sw.js").content.decode()


def test_manifest_bears_the_groups_name_and_whole_icons(client):
    answer = client.get("/site.webmanifest")

    told = answer.json()
    assert answer.headers["Content-Type"] == "application/manifest+json"
    assert (told["name"], told["start_url"], told["display"]) == (
        settings.SITE_NAME,
        "/take-in/",
        "standalone",
    )
    assert [icon["sizes"] for icon in told["icons"]] == ["180x180", "192x192", "512x512"]


def test_worker_is_asked_for_afresh_and_serves_the_whole_site(client):
    answer = client.get("/sw.js")

    assert answer.headers["Content-Type"] == "text/javascript"
    assert answer.headers["Cache-Control"] == "no-cache"


def test_worker_keeps_files_that_are_there_and_nothing_private(client):
    files = kept_files(script_of(client))

    names = [name.removeprefix("/static/") for name in files]
    assert [name for name in names if not (STATIC / name).is_file()] == []
    assert [name for name in files if not name.startswith("/static/")] == []


def test_worker_keeps_every_script_that_its_pages_bring_in(client):
    kept = set(kept_files(script_of(client)))
    imported = re.compile(r"(?:from|import\()\s*\"\./(?:\.\./)?([\w/]+\.js)\"")

    missing = {
        f"/static/js/capture/{name}"
        for path in (STATIC / "js" / "capture").glob("*.js")
        for name in imported.findall(path.read_text())
        if not name.startswith("../")
    } - kept

    assert missing == set()


def test_worker_is_another_one_when_a_kept_page_changes(client, settings):
    before = script_of(client)
    same = script_of(client)
    settings.SITE_NAME = "Another Group"

    assert before == same
    assert script_of(client) != before


@pytest.mark.parametrize("address", ["/take-in/phone/", "/move/phone/"])
def test_kept_page_is_the_same_for_everybody_and_names_nobody(client, signed_in, address):
    AccessionFactory(summary="pallet of castings")
    ComponentAliasFactory(name="axlebox")
    LocationFactory(name="Rack 2")

    page = signed_in.get(address).content.decode()
    client.logout()

    assert page == client.get(address).content.decode()
    private = ("walt", "csrfmiddlewaretoken", "pallet", "axlebox", "Rack 2")
    assert [words for words in private if words in page] == []
