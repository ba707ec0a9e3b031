"""Every setting of the site, read from the environment in this one place."""

from pathlib import Path

import environ
from django.core.exceptions import ImproperlyConfigured

BASE_DIR = Path(__file__).resolve().parent.parent
VAR_DIR = BASE_DIR / "var"

env = environ.Env()
# On for whoever types a command without configuration; wsgi.py and asgi.py turn it off.
DEBUG = env.bool("DEBUG", default=True)
# Development without DEBUG is the demonstration: quick pages, but plain HTTP and no key asked.
DEVELOPMENT = env.bool("DEVELOPMENT", default=DEBUG)

# A key that everybody can read protects nobody, so only development may go without its own.
SECRET_KEY = env.str("SECRET_KEY", default="only-for-development" if DEVELOPMENT else "")
if not SECRET_KEY:
    raise ImproperlyConfigured(
        "Set SECRET_KEY to a long random text before serving the catalog to others, "
        "or set DEVELOPMENT=1 to try it on this computer."
    )

ALLOWED_HOSTS = env.list("ALLOWED_HOSTS", default=["*"] if DEVELOPMENT else [])
CSRF_FAILURE_VIEW = "catalog.views.phone_answers.stale_token"
CSRF_TRUSTED_ORIGINS = env.list("CSRF_TRUSTED_ORIGINS", default=[])
SITE_NAME = env.str("SITE_NAME", default="Restoration catalog")
SITE_ADDRESS = env.str("SITE_ADDRESS", default="")
# Only a proxy's own word for where and how a request came can be trusted, and only if there is one.
BEHIND_PROXY = env.bool("BEHIND_PROXY", default=False)
if BEHIND_PROXY:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
SHOW_STYLEGUIDE = env.bool("SHOW_STYLEGUIDE", default=DEVELOPMENT)

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.forms",
    "django_filters",
    "simple_history",
    "catalog",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "catalog.http.ContentPolicyMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]

ROOT_URLCONF = "restoration.urls"
WSGI_APPLICATION = "restoration.wsgi.application"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "catalog.http.site_context",
            ],
            "builtins": [
                "catalog.templatetags.components",
                "catalog.templatetags.formatting",
                "catalog.templatetags.notes",
                "catalog.templatetags.drawing",
                "catalog.templatetags.lists",
                "catalog.templatetags.timeline",
                "catalog.templatetags.shed",
                "catalog.templatetags.months",
                "catalog.templatetags.photos",
                "catalog.templatetags.sizes",
            ],
        },
    }
]
FORM_RENDERER = "catalog.form_renderer.FormRenderer"

VAR_DIR.mkdir(exist_ok=True)
DATABASES = {
    "default": env.db_url("DATABASE_URL", default=f"sqlite:///{VAR_DIR / 'catalog.sqlite3'}")
}
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    # Readers never wait in WAL mode, and IMMEDIATE makes two writers queue instead of failing.
    DATABASES["default"]["OPTIONS"] = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": (
            "PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL; PRAGMA foreign_keys=ON;"
            "PRAGMA mmap_size=134217728; PRAGMA cache_size=-16000;"
        ),
    }
else:
    DATABASES["default"]["CONN_HEALTH_CHECKS"] = True
# Opening a database, and reading its schema, is a third of what a small request costs.
DATABASES["default"]["CONN_MAX_AGE"] = 60

AUTH_USER_MODEL = "catalog.Member"
LOGIN_URL = "login"
LOGIN_REDIRECT_URL = "home"
LOGOUT_REDIRECT_URL = "home"
# A volunteer's shift must not end in the middle of a pallet.
SESSION_COOKIE_AGE = 30 * 24 * 3600
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}"}
    for name in ("MinimumLengthValidator", "CommonPasswordValidator", "NumericPasswordValidator")
]

LANGUAGE_CODE = "en-us"
TIME_ZONE = env.str("TIME_ZONE", default="UTC")
USE_TZ = True

STATIC_URL = "static/"
STATIC_ROOT = env.path("STATIC_ROOT", default=str(VAR_DIR / "static"))
STATICFILES_DIRS = [BASE_DIR / "static"]
MEDIA_ROOT = env.path("MEDIA_ROOT", default=str(VAR_DIR / "media"))
STORAGES = {
    "default": {"BACKEND": "catalog.storage.WholeFileStorage"},
    "staticfiles": {"BACKEND": "catalog.staticfiles.OneSheetStorage"},
}
DATA_UPLOAD_MAX_MEMORY_SIZE = 5 * 1024 * 1024
FIXTURES_ROOT = BASE_DIR / "fixtures"

if not DEVELOPMENT:
    SECURE_SSL_REDIRECT = env.bool("SECURE_SSL_REDIRECT", default=True)
    # A watchdog asks the program itself, past the proxy, and a redirect is no sign of life.
    SECURE_REDIRECT_EXEMPT = [r"^livez$", r"^readyz$"]
    SECURE_HSTS_SECONDS = env.int("SECURE_HSTS_SECONDS", default=365 * 24 * 3600)
    SECURE_HSTS_INCLUDE_SUBDOMAINS = True
    SECURE_HSTS_PRELOAD = True
    SESSION_COOKIE_SECURE = True
    CSRF_COOKIE_SECURE = True

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}},
    "root": {"handlers": ["console"], "level": env.str("LOG_LEVEL", default="WARNING")},
}
