"""What makes the site a web app: its manifest, the worker's script, and the pages it keeps."""

import json
from hashlib import sha256
from pathlib import Path

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.forms import Form
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.template.loader import render_to_string
from django.templatetags.static import static
from django.urls import reverse
from django.views.decorators.cache import cache_control
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_safe

from catalog.forms.synced import BlankMoveForm, BlankTakeInForm

# What the kept pages need, besides the scripts of the queue.
NEEDED = (
    "css/site.css",
    "img/icon.svg",
    "img/icon-32.png",
    "img/icon-180.png",
    "js/site.js",
    "js/choice_search.js",
    "js/echo.js",
    "js/length_echo.js",
    "js/photo_preview.js",
    "js/scan_into.js",
)
STATIC = Path(settings.BASE_DIR, "static")
ICONS = {180: "img/icon-180.png", 192: "img/icon-192.png", 512: "img/icon-512.png"}


@login_not_required
@require_safe
@cache_control(max_age=3600)
def manifest(request: HttpRequest) -> HttpResponse:
    told = {
        "id": "/",
        "name": settings.SITE_NAME,
        "short_name": settings.SITE_NAME,
        "start_url": reverse("take-in"),
        "scope": "/",
        "display": "standalone",
        "background_color": "#f4efe6",
        "theme_color": "#f4efe6",
        "icons": [
            {"src": static(name), "sizes": f"{size}x{size}", "type": "image/png"}
            for size, name in ICONS.items()
        ],
    }
    return JsonResponse(told, content_type="application/manifest+json")


@login_not_required
@require_safe
@cache_control(no_cache=True)
def script(request: HttpRequest) -> HttpResponse:
    """Serve the worker with the names of what it keeps; another content is another worker."""
    files = [static(name) for name in needed_files()]
    pages = {reverse("take-in"): reverse("take-in-phone")}
    # Moving with a signal can be undone, so its kept page is for when there is none.
    without_signal = {reverse("move"): reverse("move-phone")}
    context = {
        "version": version(),
        "files": json.dumps(files),
        "pages": json.dumps(pages),
        "without_signal": json.dumps(without_signal),
    }
    return render(request, "worker.js", context, content_type="text/javascript")


@login_not_required
@require_safe
@gzip_page
@cache_control(no_cache=True)
def take_in_page(request: HttpRequest) -> HttpResponse:
    return HttpResponse(take_in_shell())


@login_not_required
@require_safe
@gzip_page
@cache_control(no_cache=True)
def move_page(request: HttpRequest) -> HttpResponse:
    return HttpResponse(move_shell())


def take_in_shell() -> str:
    """Return the page for taking in without anything that is private to a member."""
    return _shell("catalog/captures/shell.html", BlankTakeInForm())


def move_shell() -> str:
    """Return the page for moving parts without anything that is private to a member."""
    return _shell("catalog/places/move_shell.html", BlankMoveForm())


def needed_files() -> list[str]:
    """Return the names of the static files that the kept pages need."""
    return [*NEEDED, *queue_scripts()]


def queue_scripts() -> list[str]:
    """Return the names of the scripts by which a phone keeps pieces and sends them."""
    scripts = sorted(STATIC.glob("js/capture/*.js"))
    return [str(path.relative_to(STATIC)) for path in scripts]


def version() -> str:
    """Return a name that is another one as soon as anything that is kept differs."""
    digest = sha256(f"{take_in_shell()}{move_shell()}".encode())
    for name in needed_files():
        digest.update(static(name).encode())
        digest.update((STATIC / name).read_bytes())
    return digest.hexdigest()[:12]


def _shell(template: str, form: Form) -> str:
    # Rendered without the request, which alone knows who is signed in.
    return render_to_string(template, {"form": form, "site_name": settings.SITE_NAME})
