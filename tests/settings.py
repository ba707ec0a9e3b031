"""The site's settings, made quick for tests."""

import os
import tempfile

os.environ["DEVELOPMENT"] = "1"
os.environ.setdefault("DEBUG", "0")
os.environ.setdefault("MEDIA_ROOT", tempfile.mkdtemp(prefix="catalog-media-"))

from restoration.settings import *  # noqa: F403
from restoration.settings import DATABASES, STORAGES

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
STORAGES = {
    **STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
SITE_NAME = "Marrow Fell Tramway Group"
WHITENOISE_AUTOREFRESH = True
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    # The browser tests serve from a thread of their own, which needs a file, not memory.
    DATABASES["default"]["TEST"] = {
        "NAME": os.path.join(tempfile.gettempdir(), f"catalog-test-{os.getpid()}.sqlite3")  # noqa: PTH118
    }
