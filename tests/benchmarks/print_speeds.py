"""Time sheets against one another, and the page of a much told vehicle against an empty one."""

import io
import resource
import time
from statistics import median

import numpy as np
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpRequest, HttpResponse
from django.template import engines
from django.test import Client, override_settings
from django.urls import path
from PIL import Image

from catalog.models import Member, Vehicle
from catalog.models.members import Role
from catalog.operations.photos import add_photo
from catalog.operations.provenance import record_event
from catalog.operations.sources import record_source
from catalog.operations.vehicle_classes import record_vehicle_class
from catalog.operations.vehicles import record_vehicle
from catalog.printing.editions import Edition
from catalog.printing.sheets import bound
from catalog.printing.vehicles import provenance_sheet
from restoration.urls import urlpatterns as site_patterns

ROUNDS = 7
EMPTY = engines["django"].from_string('{% extends "base.html" %}')


def empty_page(request: HttpRequest) -> HttpResponse:
    return HttpResponse(EMPTY.render({}, request))


urlpatterns = [path("empty/", empty_page), *site_patterns]


def main() -> int:
    by = Member.objects.create(username="cora", role=Role.CURATOR)
    plain, pictured = (_vehicle(name, by, events=12) for name in ("Plain", "Pictured"))
    for number in range(6):
        add_photo(_photograph(number), by=by, vehicle=pictured)
    told = _vehicle("Told", by, events=100)
    lines = [*_sheets(plain, pictured), _page(told, by)]
    for name, value, limit, unit in lines:
        print(
            f"{name:44}{value:8.2f} {unit:5} limit {limit:g}{'' if value < limit else '  MISSED'}"
        )
    return sum(value >= limit for _, value, limit, _ in lines)


def _sheets(plain: Vehicle, pictured: Vehicle) -> list[tuple[str, float, float, str]]:
    """Print both in turn, in seconds of the processor, which others may keep busy as well."""
    seconds: dict[Vehicle, list[float]] = {plain: [], pictured: []}
    for turn in range(-1, ROUNDS):
        for vehicle in (plain, pictured):
            started = time.process_time()
            data = _printed(vehicle)
            if turn >= 0:
                seconds[vehicle].append(time.process_time() - started)
    without, with_photos = median(seconds[plain]), median(seconds[pictured])
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return [
        ("sheet with 6 photos, against none", with_photos / without, 1.3, "times"),
        ("sheet with 6 photos", with_photos, 1.0, "s"),
        ("its file", len(data) / 2**20, 2.0, "MiB"),
        ("memory of the whole process at most", memory, 200.0, "MiB"),
    ]


def _page(told: Vehicle, by: Member) -> tuple[str, float, float, str]:
    client = Client()
    client.force_login(by)
    seconds: dict[str, list[float]] = {told.get_absolute_url(): [], "/empty/": []}
    with override_settings(ROOT_URLCONF=__name__, ALLOWED_HOSTS=["testserver"]):
        for turn in range(-2, ROUNDS * 2):
            for address, spent in seconds.items():
                started = time.perf_counter()
                status = client.get(address).status_code
                if status != 200:
                    raise RuntimeError(f"{address} answers {status}")
                if turn >= 0:
                    spent.append(time.perf_counter() - started)
    ours, empty = (median(spent) for spent in seconds.values())
    return ("vehicle of 100 events, against an empty page", ours / empty, 8.0, "times")


def _printed(vehicle: Vehicle) -> bytes:
    fetched = Vehicle.objects.select_related("vehicle_class__builder").get(pk=vehicle.pk)
    return bound([provenance_sheet(fetched, Edition("https://shed.example/vehicle/"))])


def _vehicle(name: str, by: Member, *, events: int) -> Vehicle:
    kind = record_vehicle_class({"designation": f"Class of {name}"}, by=by)
    values = {"label": name, "vehicle_class": kind, "story": "A story of some length. " * 20}
    vehicle = record_vehicle(values, by=by)
    source = record_source({"title": f"Register of {name}"}, by=by)
    for number in range(events):
        year = 1899 + number
        parties = {"from_party": f"Owner {number}", "to_party": f"Owner {number + 1}"}
        told = {"kind": "sold", "date_text": f"about {year}", "words": "So it is said.", **parties}
        record_event(vehicle=vehicle, values=told, by=by, cited={"source": source})
    return vehicle


def _photograph(number: int) -> SimpleUploadedFile:
    """Make a picture with as much in it as a photograph has, so that it weighs as much."""
    random = np.random.default_rng(number)
    rough = Image.fromarray(random.integers(0, 255, (90, 120, 3), dtype=np.uint8))
    file = io.BytesIO()
    rough.resize((1600, 1200), Image.Resampling.BICUBIC).save(file, "JPEG", quality=90)
    return SimpleUploadedFile(f"photo-{number}.jpg", file.getvalue(), "image/jpeg")
