"""Run a measurement on one of the generated collections."""

import os
from importlib import import_module

import django

from restoration.settling import settle


def run(measurement, collection):
    os.environ["COLLECTION"] = collection
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.benchmarks.admin_settings"
    django.setup()
    settle()
    # What imports models can be imported only now.
    return import_module(f"tests.benchmarks.{measurement}").main()
