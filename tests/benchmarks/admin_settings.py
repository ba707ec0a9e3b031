"""The site's settings on a generated collection, with the stock admin beside it to compare with."""

import os

os.environ.update(DEVELOPMENT="1", DEBUG="0")
os.environ.pop("DATABASE_URL", None)

from restoration.settings import *  # noqa: F403
from restoration.settings import DATABASES, INSTALLED_APPS, STORAGES, VAR_DIR

# Which of the collections in big_collection.py is measured.
COLLECTION = os.environ.get("COLLECTION", "large")
BENCH_DIR = VAR_DIR / "bench"
BENCH_DIR.mkdir(exist_ok=True)
DATABASES["default"]["NAME"] = BENCH_DIR / f"{COLLECTION}.sqlite3"
INSTALLED_APPS = ["django.contrib.admin", *INSTALLED_APPS]
ROOT_URLCONF = "tests.benchmarks.admin_urls"
# Addresses of static files are not what is measured, and the admin's are not gathered anywhere.
STORAGES = {
    **STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
WHITENOISE_AUTOREFRESH = True
ALLOWED_HOSTS = ["testserver"]
