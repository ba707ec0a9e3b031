"""Measure the provenance sheet with and without photos, and a vehicle of a hundred events."""

import os
import sys
from importlib import import_module

import django
from django.db import connection

from restoration.settling import settle


def main():
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
    django.setup()
    settle()
    connection.creation.create_test_db(verbosity=0)
    try:
        # What imports models can be imported only now.
        return import_module("tests.benchmarks.print_speeds").main()
    finally:
        connection.creation.destroy_test_db(connection.settings_dict["NAME"], verbosity=0)


if __name__ == "__main__":
    sys.exit(main())
