"""Take the pictures of the guide again, on the demonstration: `make screenshots`."""

import io
import subprocess

import pytest
from django.test import Client
from PIL import Image

from catalog.exchange.demonstration import load_demonstration
from catalog.models import Member
from tests.browser.guide_pictures import PAPERS, PICTURES
from tests.project_files import ROOT

FOLDER = ROOT / "docs" / "guide" / "pictures"
MOST_BYTES = 120_000
MOST_BYTES_IN_ALL = 3_000_000


@pytest.fixture
def page_for(open_page, playwright, signed_in):
    """Return a function that opens the page of a picture's reader, on a phone or at a desk."""
    phone = {**playwright.devices["Pixel 7"], "device_scale_factor": 1}
    del phone["default_browser_type"]

    def opened(picture):
        page = open_page(**(phone if picture.is_phone else {}), reduced_motion="reduce")
        width = page.viewport_size["width"] if picture.is_phone else 1280
        page.set_viewport_size({"width": width, "height": picture.height})
        if picture.role:
            signed_in(page, Member.objects.get(username=picture.role))
        return page

    return opened


def taken(page, picture, site):
    page.context.add_cookies([{"name": "theme", "value": picture.theme, "url": site}])
    answer = page.goto(picture.address(), wait_until="networkidle")
    assert answer.ok, f"{picture.name}: {answer.status} at {answer.url}"
    picture.before(page)
    if picture.top:
        page.locator(picture.top).first.evaluate("each => each.scrollIntoView()")
    page.wait_for_load_state("networkidle")
    return page.screenshot()


def small(png):
    """Return the picture with as many colors as a small file holds."""
    image = Image.open(io.BytesIO(png)).convert("RGB")
    for colors in (128, 64, 32, 16):
        file = io.BytesIO()
        image.quantize(colors, dither=Image.Dither.NONE).save(file, "PNG", optimize=True)
        if file.tell() <= MOST_BYTES:
            break
    return file.getvalue()


def first_page(pdf):
    """Return the first page of a printed sheet as a picture, small enough to stand in a text."""
    command = ["pdftoppm", "-r", "80", "-f", "1", "-l", "1", "-png", "-"]
    return subprocess.run(command, input=pdf, capture_output=True, check=True).stdout  # noqa: S603


def printed(paper):
    """Return a printed sheet as a curator gets it."""
    client = Client()
    client.force_login(Member.objects.get(username="curator"))
    answer = client.get(paper())
    assert answer.headers["Content-Type"] == "application/pdf"
    return first_page(answer.content)


@pytest.mark.django_db(transaction=True)
def test_pictures_of_the_guide_are_taken(page_for, live_server, settings):
    # Codes that would lead to this computer only are warned of, which is not the usual sight.
    settings.SITE_ADDRESS = "https://catalog.example.org"
    load_demonstration()

    FOLDER.mkdir(exist_ok=True)
    for name, paper in PAPERS:
        (FOLDER / f"{name}.png").write_bytes(small(printed(paper)))
    for picture in PICTURES:
        page = page_for(picture)
        png = small(taken(page, picture, live_server.url))
        (FOLDER / f"{picture.name}.png").write_bytes(png)
        page.context.close()

    sizes = {path.stem: path.stat().st_size for path in FOLDER.glob("*.png")}
    assert max(sizes.values()) <= MOST_BYTES
    assert sum(sizes.values()) <= MOST_BYTES_IN_ALL
