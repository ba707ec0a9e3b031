"""Drive Debian's Chromium against a live server: a phone, a desk, signing in, accessibility."""

import os
import shutil
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.contrib.staticfiles.finders import FileSystemFinder, get_finder
from django.test import Client, override_settings

from catalog.staticfiles import SHEET, joined_sheet
from tests.browser.phones import Phone
from tests.serving import ShedServer

# Playwright keeps an event loop in the test's thread, which Django would take for async code.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"

# A machine that does something else besides draws no frame for half a minute now and then.
PATIENCE_MS = 90_000
HERE = Path(__file__).parent
GUIDELINES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# Only what is wrong is told in full: all that passes is long in coming.
CHECKED = {"runOnly": {"type": "tag", "values": GUIDELINES}, "resultTypes": ["violations"]}


def pytest_collection_modifyitems(items):
    for item in items:
        if item.path.is_relative_to(HERE):
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args):
    return {**browser_type_launch_args, "executable_path": shutil.which("chromium")}


@pytest.fixture(scope="package", autouse=True)
def one_sheet(tmp_path_factory):
    """Serve the style sheet joined, as the installed site does: its fifty parts take their time."""
    found = {path: (storage, path) for path, storage in FileSystemFinder().list([])}
    folder = tmp_path_factory.mktemp("joined")
    sheet = folder / SHEET
    sheet.parent.mkdir()
    sheet.write_text(joined_sheet(found))
    with override_settings(STATICFILES_DIRS=[folder, *settings.STATICFILES_DIRS]):
        get_finder.cache_clear()
        yield
    get_finder.cache_clear()


@pytest.fixture
def measured():
    """Hold the pages that the accessibility checker has touched.

    It measures with inline styles of its own, which the policy rightly refuses, and the browser
    tells of that at a moment of its choosing.
    """
    return set()


@pytest.fixture
def new_context(new_context):
    """Return a function that opens a browser which is waited for longer than on a fast machine."""

    def opened(**options):
        context = new_context(**options)
        context.set_default_timeout(PATIENCE_MS)
        return context

    return opened


@pytest.fixture
def open_page(new_context, live_server, measured):
    """Return a function that opens a page, and fail the test if a page's script or policy failed."""
    faults = []

    def opened(**options):
        page = new_context(base_url=live_server.url, **options).new_page()

        def note(message):
            refused = message.type == "error" and "Content Security Policy" in message.text
            if refused and page not in measured:
                faults.append(message.text)

        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on("console", note)
        return page

    yield opened
    assert faults == []


@pytest.fixture
def phone(open_page, playwright):
    device = dict(playwright.devices["Pixel 7"])
    del device["default_browser_type"]
    return open_page(**device)


@pytest.fixture
def desk(open_page):
    return open_page(viewport={"width": 1280, "height": 900})


@pytest.fixture
def signed_in(live_server):
    """Return a function that gives a page the session of a member, without the sign-in form."""

    def sign_in(page, member):
        client = Client()
        client.force_login(member)
        session = client.cookies[settings.SESSION_COOKIE_NAME].value
        cookie = {"name": settings.SESSION_COOKIE_NAME, "value": session, "url": live_server.url}
        page.context.add_cookies([cookie])
        return page

    return sign_in


def barriers(page):
    """Return a line for each element that shuts somebody out, naming the rule it breaks."""
    results = Axe().run(page, options=CHECKED)
    return [
        f"{violation['id']}: {violation['help']}\n    {' '.join(node['target'])}: {node['html'][:160]}"
        for violation in results.response["violations"]
        for node in violation["nodes"]
    ]


@pytest.fixture
def axe(measured):
    """Return a function that fails, naming rule and element, when a page shuts somebody out."""

    def check(page):
        measured.add(page)
        found = barriers(page)
        if found:
            # What the bar at the lower edge half hides counts as too small to touch. A thumb
            # pushes the page on and sees it whole, so a barrier must stand at both places.
            page.evaluate("document.scrollingElement.scrollTop += scrollY > 40 ? -40 : 40")
            again = barriers(page)
            found = [barrier for barrier in found if barrier in again]
        assert not found, f"{page.url}\n" + "\n".join(found)

    return check


@pytest.fixture(scope="session")
def gathered_server(tmp_path_factory, django_db_setup):
    """Gather the static files once; the server itself is started by the first test that needs it."""
    server = ShedServer(tmp_path_factory.mktemp("shed"))
    server.gather_static_files()
    try:
        server.start()
        yield server
    finally:
        server.stop()


@pytest.fixture
def shed(gathered_server, transactional_db):
    """Lend the server, which may be killed: the next test finds it running again."""
    yield gathered_server
    gathered_server.start_again_unless_as_before()


@pytest.fixture
def sign_in(shed):
    """Return a function that gives a browser the session of a member at the shed's server."""

    def signed_in(context, member):
        client = Client()
        client.force_login(member)
        session = client.cookies[settings.SESSION_COOKIE_NAME].value
        cookie = {"name": settings.SESSION_COOKIE_NAME, "value": session, "url": shed.url}
        context.add_cookies([cookie])

    return signed_in


@pytest.fixture
def new_phone(new_context, playwright, shed, sign_in):
    """Return a function that hands a member a phone, with the page for taking in open."""
    device = dict(playwright.devices["Pixel 7"])
    del device["default_browser_type"]
    faults = []

    def handed(member, **options):
        context = new_context(base_url=shed.url, **device, **options)
        sign_in(context, member)
        context.on("weberror", lambda fault: faults.append(str(fault.error)))
        return Phone(context.new_page())

    yield handed
    assert faults == []


@pytest.fixture
def own_browser(browser_type, browser_type_launch_args, playwright, shed, sign_in, tmp_path):
    """Return a function that opens a browser of its own, with what its profile has from before."""
    device = dict(playwright.devices["Pixel 7"])
    del device["default_browser_type"]
    opened = []

    def opens(member):
        context = browser_type.launch_persistent_context(
            tmp_path, base_url=shed.url, **browser_type_launch_args, **device
        )
        context.set_default_timeout(PATIENCE_MS)
        opened.append(context)
        # Chromium writes cookies late, so that the sign-in of a killed browser may be gone.
        sign_in(context, member)
        return context

    yield opens
    opened[-1].close()
