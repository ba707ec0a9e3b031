"""Let twenty phones send ten captures each at once to a server of two workers on SQLite."""

import os
import sys
import tempfile
from importlib import import_module

import django


def main():
    with tempfile.TemporaryDirectory() as folder:
        os.environ.update(
            DATABASE_URL=f"sqlite:///{folder}/catalog.sqlite3",
            MEDIA_ROOT=f"{folder}/media",
            DJANGO_SETTINGS_MODULE="tests.settings",
        )
        django.setup()
        # What imports models can be imported only now.
        return import_module("tests.benchmarks.capture_speeds").main(folder)


if __name__ == "__main__":
    sys.exit(main())
