"""Check what the settings make of the environment, in a process of its own for each."""

import os
import subprocess
import sys

import pytest
from django.conf import settings

PROGRAM = """
import django
from django.test import RequestFactory
django.setup()
told = {"X-Forwarded-Proto": "https"}
print(RequestFactory().get("/", headers=told).is_secure(), RequestFactory().get("/").is_secure())
"""


@pytest.mark.parametrize("development", ["0", "1"])
@pytest.mark.parametrize(("behind", "told"), [("0", "False False"), ("1", "True False")])
def test_only_a_proxy_that_the_site_has_says_that_a_request_came_by_https(
    behind, told, development
):
    environment = {
        **os.environ,
        "DJANGO_SETTINGS_MODULE": "restoration.settings",
        "SECRET_KEY": "of this test",
        "DEVELOPMENT": development,
        "BEHIND_PROXY": behind,
    }
    command = [sys.executable, "-c", PROGRAM]

    answer = subprocess.run(  # noqa: S603
        command, cwd=settings.BASE_DIR, env=environment, capture_output=True, text=True, check=True
    )

    assert answer.stdout.strip() == told
