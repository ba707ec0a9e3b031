"""Phones that send their captures all at once, and what the server made of it."""

import io
import json
import random
import statistics
import time
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from http.client import HTTPConnection
from pathlib import Path
from uuid import UUID

from django.conf import settings
from django.core.management import call_command
from django.test import Client
from PIL import Image

from catalog.models import Part, Photo
from tests.factories import MemberFactory
from tests.serving import ShedServer

PHONES = 20
CAPTURES = 10
LIMIT_SECONDS = 0.3
WORKERS = 2


class Phone:
    """One phone: a connection that stays open, a member who is signed in, and its own ids."""

    def __init__(self, number, port, cookie, user):
        self.random = random.Random(number)
        self.number = number
        self.user = user
        self.line = HTTPConnection("127.0.0.1", port, timeout=120)
        self.cookie = cookie
        session = self.ask("GET", "/sync/session/")[1]
        self.token = session["csrf"]

    def new_id(self):
        return str(UUID(int=self.random.getrandbits(128), version=4))

    def ask(self, method, address, body=None, **headers):
        sent = {"Cookie": self.cookie, **headers}
        if method == "PUT":
            sent |= {"X-CSRFToken": self.token}
        self.line.request(method, address, body, sent)
        answer = self.line.getresponse()
        if "csrftoken" in (cookies := answer.headers.get("Set-Cookie") or ""):
            self.cookie += f"; {cookies.partition(';')[0]}"
        return answer.status, json.loads(answer.read())

    def capture(self, index, photo):
        """Send one piece and perhaps its photo; return the statuses and the piece's seconds."""
        piece = self.new_id()
        words = f"piece {index} of phone {self.number}"
        told = {"user": self.user, "description": words, "photo_count": int(photo is not None)}
        start = time.perf_counter()
        statuses = [self.ask("PUT", f"/sync/parts/{piece}/", json.dumps(told))[0]]
        seconds = time.perf_counter() - start
        if photo:
            address = f"/sync/parts/{piece}/photos/{self.new_id()}/"
            headers = {"X-Content-SHA256": sha256(photo).hexdigest()}
            statuses.append(self.ask("PUT", address, photo, **headers)[0])
        return statuses, seconds


def signed_in_phones(port):
    for number in range(PHONES):
        client = Client()
        member = MemberFactory()
        client.force_login(member)
        session = client.cookies[settings.SESSION_COOKIE_NAME].value
        cookie = f"{settings.SESSION_COOKIE_NAME}={session}"
        yield Phone(number, port, cookie, member.pk)


def photographs():
    """Make photos as phones send them, for each phone another one."""
    grain = Image.effect_noise((2560, 1920), 20).convert("RGB")
    for number in range(PHONES):
        file = io.BytesIO()
        grain.paste((number, 90, 120), (0, 0, 640, 640))
        grain.save(file, "JPEG", quality=80)
        yield file.getvalue()


def all_at_once(phones, photos):
    """Let every phone send its captures, the first with its photo; return statuses and seconds."""

    def send(phone):
        photo = photos[phone.number] if photos else None
        # A line that lay idle was hung up by the server; this opens it anew.
        phone.line.close()
        return [phone.capture(index, None if index else photo) for index in range(CAPTURES)]

    with ThreadPoolExecutor(PHONES) as pool:
        captures = [one for sent in pool.map(send, phones) for one in sent]
    statuses = [status for sent, _ in captures for status in sent]
    return set(statuses), [seconds for _, seconds in captures]


def measure(phones):
    """Print what was measured, and say whether all arrived and quickly enough."""
    print(f"{PHONES} phones, {CAPTURES} captures each at once, {WORKERS} workers, SQLite")
    start = time.perf_counter()
    statuses, seconds = all_at_once(phones, None)
    whole = time.perf_counter() - start
    slow = statistics.quantiles(seconds, n=20)[-1]
    arrived = (Part.objects.count(), Photo.objects.count()) == (PHONES * CAPTURES, 0)
    middle = statistics.median(seconds)
    print(f"without photo: median {middle * 1000:.0f} ms, 95 of 100 within {slow * 1000:.0f} ms")
    print(f"{len(seconds) / whole:.0f} captures a second")

    photos = list(photographs())
    again, _ = all_at_once(phones, photos)
    kept = (Part.objects.count(), Photo.objects.count())
    print(f"then {PHONES} of them with a photo of {len(photos[0]) // 1000} kB each: kept {kept}")
    print(f"answers: {sorted(statuses | again)}; each arrived once: {arrived}")
    arrived = arrived and kept == (2 * PHONES * CAPTURES, PHONES)
    return arrived and statuses | again == {201} and slow < LIMIT_SECONDS


def main(folder):
    call_command("migrate", verbosity=0)
    server = ShedServer(Path(folder))
    server.gather_static_files()
    server.start(workers=WORKERS)
    try:
        return 0 if measure(list(signed_in_phones(server.port))) else 1
    finally:
        server.stop()
