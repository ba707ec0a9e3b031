"""Check what the server does once before its first answer."""

import gc
import subprocess
import sys

from django.conf import settings

from restoration.settling import settle

# In a process of its own, where no test has loaded the views before.
PROGRAM = """
import sys
import restoration.wsgi
print("catalog.views.parts" in sys.modules)
"""


def test_the_views_are_loaded_before_the_first_answer():
    command = [sys.executable, "-c", PROGRAM]
    told = subprocess.run(  # noqa: S603
        command, cwd=settings.BASE_DIR, capture_output=True, text=True, check=True
    ).stdout

    assert told.strip() == "True"


def test_what_stays_loaded_is_left_alone_by_the_garbage_collector():
    try:
        settle()

        assert gc.get_freeze_count() > 100_000
    finally:
        gc.unfreeze()
