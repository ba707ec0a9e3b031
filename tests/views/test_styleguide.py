"""Check that builders see every building block, and the public sees none of the page."""

import re

import pytest
from django.test import Client
from django.urls import reverse

from catalog.templatetags import components, drawing
from tests.project_files import ROOT, files

pytestmark = pytest.mark.django_db


def test_styleguide_shows_every_component(client: Client, settings):
    settings.SHOW_STYLEGUIDE = True
    # The legend is drawn once, and another test may have seen that already.
    components.state_legend.cache_clear()

    response = client.get(reverse("styleguide"))

    sources = (
        (ROOT / f"catalog/templatetags/{library}.py").read_text()
        for library in ("components", "drawing")
    )
    drawn = set(re.findall(r'"(components/\w+\.html)"', "".join(sources)))
    assert drawn - {template.name for template in response.templates} == set()


def test_styleguide_uses_every_tag_of_the_library():
    sources = "".join(path.read_text() for path in files("*.html", under="templates/styleguide"))

    tags = {tag for library in (components, drawing) for tag in library.register.tags}

    assert {tag for tag in tags if f"{{% {tag} " not in sources} == set()


def test_styleguide_is_not_found_by_the_public(client: Client, settings):
    settings.SHOW_STYLEGUIDE = settings.DEBUG = False

    response = client.get(reverse("styleguide"))

    assert response.status_code == 404


def test_members_find_their_way_from_every_page(signed_in: Client, settings):
    settings.SHOW_STYLEGUIDE = True

    html = signed_in.get(reverse("styleguide")).content.decode()

    bar = re.search(r'<nav class="thumb-bar".*?</nav>', html, re.DOTALL)[0]
    assert re.findall(r'href="(.+?)"', bar) == [
        reverse(name) for name in ("home", "search", "needs", "take-in")
    ]


@pytest.mark.parametrize(("cast", "sees"), [("as_steward", True), ("as_curator", False)])
def test_only_stewards_see_the_way_to_members(request, settings, cast, sees):
    settings.SHOW_STYLEGUIDE = True
    signed_in = request.getfixturevalue(cast)

    html = signed_in.get(reverse("styleguide")).content.decode()

    assert (f'href="{reverse("member-list")}"' in html) is sees


@pytest.mark.parametrize(("cookie", "chosen"), [("dark", True), ("light", True), ("x", False)])
def test_theme_is_drawn_by_the_server(client: Client, settings, cookie, chosen):
    settings.SHOW_STYLEGUIDE = True
    client.cookies["theme"] = cookie

    html = client.get(reverse("styleguide")).content.decode()

    assert (f'<html lang="en" data-theme="{cookie}">' in html) is chosen
